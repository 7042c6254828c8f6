/** Keeps the screen awake while a page is shown, where the browser can, until the returned function is called. */
export function keepAwake(): () => void {
  const stop = new AbortController();
  let lock: WakeLockSentinel | undefined;
  const ask = async () => {
    if (document.visibilityState !== 'visible') return;
    // It may be refused when the battery is low: the screen then sleeps as usual.
    lock = await navigator.wakeLock?.request('screen').catch(() => undefined);
    if (stop.signal.aborted) void lock?.release();
  };
  document.addEventListener('visibilitychange', () => void ask(), { signal: stop.signal });
  void ask();
  return () => {
    stop.abort();
    void lock?.release();
  };
}
