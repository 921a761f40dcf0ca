// Scripts that are fetched when they are needed. They are plain scripts beside this one, so that the page also works when it is opened as a file.

const here = (document.currentScript as HTMLScriptElement | null)?.src ?? location.href;
const loading = new Map<string, Promise<void>>();

/** Loads a script that lies beside this one, once. */
export function loadScript(name: string): Promise<void> {
  const before = loading.get(name);
  if (before !== undefined) return before;
  const loaded = new Promise<void>((resolve, reject) => {
    const script = document.createElement("script");
    script.src = new URL(name, here).href;
    script.addEventListener("load", () => resolve());
    script.addEventListener("error", () => {
      loading.delete(name);
      reject(new Error(`${name} could not be loaded`));
    });
    document.head.append(script);
  });
  loading.set(name, loaded);
  return loaded;
}
