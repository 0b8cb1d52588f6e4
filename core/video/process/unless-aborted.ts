/** Waits for something, but no longer once it is aborted; who calls looks at the signal. Rejects as `work` does. */
export async function unlessAborted(work: Promise<unknown>, signal: AbortSignal): Promise<void> {
  if (signal.aborted) return;
  let abort = (): void => undefined;
  const aborted = new Promise<void>((resolve) => {
    abort = () => {
      resolve();
    };
  });
  signal.addEventListener('abort', abort, { once: true });
  await Promise.race([work, aborted]).finally(() => {
    signal.removeEventListener('abort', abort);
  });
}
