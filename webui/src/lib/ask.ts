/** How a request is sent: where somebody must sign in first, they are asked on the spot, and it is sent again. */

import { me } from './me.svelte';
import { prompt, type Wanted } from './prompt.svelte';
import { answerTo } from './carried';

/** Sends a request. The page stays, with all that was typed on it, whatever the reader is asked meanwhile. */
export async function ask(request: Request): Promise<Response> {
  const again = request.clone();
  const answer = await answerTo(request);
  const wanted = await wantedBy(answer);
  if (!wanted || again.signal.aborted) return answer;
  if (wanted === 'sign-in') me.isNobody();
  return (await prompt.ask(wanted)) ? ask(again) : answer;
}

/** What an answer asks for before it is another one. */
async function wantedBy(answer: Response): Promise<Wanted | undefined> {
  if (answer.status !== 401 && answer.status !== 403) return undefined;
  const problem = (await answer
    .clone()
    .json()
    .catch(() => ({}))) as { type?: string };
  const kind = problem.type?.split('#')[1];
  return kind === 'sign-in' || kind === 'password-again' ? kind : undefined;
}
