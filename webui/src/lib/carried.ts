/** Answers of the service that the page carries, so that it need not ask for what it shows first. */

/** What was true when the page was sent is shown at once or not at all. */
const freshMs = 10_000;

/** Answers a request by what the page carries, else by asking. */
export const answerTo = async (request: Request): Promise<Response> =>
  carried(request) ?? globalThis.fetch(request);

/** The answer to a request where the page carries it; once, since whoever asks again wants to know what is true now. */
export function carried(request: Request): Response | undefined {
  if (request.method !== 'GET' || performance.now() > freshMs) return undefined;
  const { pathname, search } = new URL(request.url);
  for (const one of document.querySelectorAll<HTMLScriptElement>('script[data-read]')) {
    if (one.dataset.read !== pathname + search) continue;
    one.remove();
    return new Carried(one.text);
  }
  return undefined;
}

/** Its text is read in no time: what shows it is drawn with the page around it and not after it. */
class Carried extends Response {
  constructor(private readonly carried: string) {
    super();
  }

  override text(): Promise<string> {
    return Promise.resolve(this.carried);
  }

  override json(): Promise<unknown> {
    return this.text().then(JSON.parse);
  }
}
