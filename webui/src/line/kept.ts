/** Whether the browser keeps what is stored here until it is told otherwise; it is asked to, and may say no. */
export async function keptForGood(): Promise<boolean> {
  const { storage } = navigator;
  if (!storage?.persist) return false;
  return (await storage.persisted()) || (await storage.persist());
}
