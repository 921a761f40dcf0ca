# The rivals' side of nist.ts: every fit that is asked for, by R's nls with the gradient that deriv() makes. Reads the request from the file named
# first, writes the answer to standard output: for each problem the parameters found from each start, or null, and the calls of the model.
suppressPackageStartupMessages(library(jsonlite))
request <- fromJSON(commandArgs(TRUE)[1], simplifyVector = FALSE)
limit <- request$limit

fit <- function(problem) {
  names <- paste0("b", seq_along(problem$starts[[1]]))
  model <- deriv(parse(text = problem$model)[[1]], names, function.arg = c("x", names))
  data <- data.frame(x = unlist(problem$x), y = unlist(problem$y))
  calls <- 0
  counted <- function(...) {
    calls <<- calls + 1
    if (calls > limit) stop("calls of the model used up")
    model(...)
  }
  formula <- as.formula(paste("y ~ counted(x,", paste(names, collapse = ","), ")"))
  environment(formula) <- environment()
  lapply(problem$starts, function(start) {
    calls <<- 0
    found <- tryCatch(
      suppressWarnings(coef(nls(formula, data,
        start = setNames(lapply(start, as.numeric), names), algorithm = request$algorithm,
        control = nls.control(maxiter = limit, tol = request$tolerance, minFactor = request$minFactor)
      ))),
      error = function(e) NULL
    )
    list(parameters = if (is.null(found) || any(!is.finite(found))) NULL else as.list(unname(found)), calls = calls)
  })
}

results <- lapply(request$problems, fit)
version <- paste0("R ", R.version$major, ".", R.version$minor)
cat(toJSON(list(version = version, results = results), auto_unbox = TRUE, digits = NA, null = "null"))
