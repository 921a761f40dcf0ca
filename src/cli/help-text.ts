/** What `--help` says. */
export const HELP = `aimed-movement: what holds a person's pointing back, whether practice works, and what to practise next

  aimed-movement [options] [PATH ...]

PATH is a file of sessions in JSON Lines (.jsonl), a table of samples (.csv), a folder of one session's CSV tables, or a folder with any of
these in it, at any depth. "-", or no PATH behind a pipe, reads JSON Lines from standard input; several sessions may follow each other.

  --form FORM       text (default), html, csv (a table of acquisitions), parquet (the same by columns), json (one object a line)
                    or tally (sums of each session, which it reads again and merges)
  --out PATH        where to write: for html a folder (one page per person), else a file; without it standard output
  --person NAME     only this person; may be given more than once
  --minutes N       minutes a day there are for practice, 10 to 240 (default 60)
  --wanted SHARE    share of first presses that should hit, 0.5 to 0.99 (default 0.95)
  --among           hold each person against the others instead of their own best sessions
  --repair          leave out what is wrong in a file, and say so, instead of refusing the file
  --workers N       sessions analysed at a time (default: processors, at most 8; small inputs take one)
  --resume          with --out: go on where an earlier run was stopped
  --seed N          start of the random numbers (default 1)
  --quiet           no progress and no notes; errors are still said
  --help, --version

Exit codes: 0 all was read; 1 some was not, the rest was processed; 2 nothing could be done, or the options are wrong.
`;
