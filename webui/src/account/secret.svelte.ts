/**
 * The secret behind the # of the page's address. It stays there until it was
 * used, so that a reload loses nothing; it is never sent by the browser itself.
 */
export class Secret {
  text = $state(read());

  /** `come` is told the secret that the page is opened with, and each that comes later. */
  constructor(come: (text: string) => void = () => {}) {
    if (this.text !== '') come(this.text);
    $effect(() => {
      const changed = () => {
        const text = read();
        if (text === '' || text === this.text) return;
        this.text = text;
        come(text);
      };
      addEventListener('hashchange', changed);
      return () => removeEventListener('hashchange', changed);
    });
  }

  /** It was used: it stands in the address and the history no more. */
  used(): void {
    history.replaceState(history.state, '', location.pathname + location.search);
  }
}

function read(): string {
  return location.hash.slice(1);
}
