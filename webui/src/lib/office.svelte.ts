/** The office's token: for this tab only, and gone with it. */

const key = 'halfpoint.office';

class Office {
  token = $state(read());

  enter(token: string): void {
    this.token = token;
    write(token);
  }

  leave = (): void => this.enter('');
}

export const office = new Office();

function read(): string {
  try {
    return sessionStorage.getItem(key) ?? '';
  } catch {
    return '';
  }
}

function write(token: string): void {
  try {
    if (token === '') sessionStorage.removeItem(key);
    else sessionStorage.setItem(key, token);
  } catch {
    // Storage is switched off: the token is known until the page is left.
  }
}
