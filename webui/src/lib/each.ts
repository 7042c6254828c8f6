/**
 * Does something for each of a list, for at most `most` of them at the same time;
 * what came of it stands in the order of the list. The first failure is thrown.
 */
export async function each<T, R>(
  list: readonly T[],
  most: number,
  work: (one: T) => Promise<R>,
): Promise<R[]> {
  const came: R[] = [];
  const waiting = [...list.entries()];
  const worker = async () => {
    for (let next = waiting.shift(); next; next = waiting.shift()) came[next[0]] = await work(next[1]);
  };
  await Promise.all(Array.from({ length: most }, worker));
  return came;
}
