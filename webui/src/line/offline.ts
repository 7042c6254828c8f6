/** The pages are kept on this device by a service worker, so that they load without a network. */

/** Keeps the pages; where the browser cannot, they work as long as they are open. */
export function keepPages(): void {
  if (!('serviceWorker' in navigator) || import.meta.env.DEV) return;
  navigator.serviceWorker.register('/sw.js').catch((thrown: unknown) => {
    console.warn('The pages are not kept on this device.', thrown);
  });
}

/** What loads a newer version of the pages, where one waits on this device. */
export async function newer(): Promise<(() => void) | undefined> {
  const registration = await navigator.serviceWorker?.getRegistration();
  await registration?.update().catch(() => undefined); // without a network there is none
  const waiting = registration?.waiting;
  if (!waiting) return undefined;
  return () => {
    navigator.serviceWorker.addEventListener('controllerchange', () => location.reload());
    waiting.postMessage({ type: 'SKIP_WAITING' });
  };
}
