/** The service, as this application asks it. */

/** Why something could not be read. */
export class Failure extends Error {
  constructor(
    readonly kind: 'away' | 'missing' | 'refused',
    readonly status: number,
    readonly detail: string,
  ) {
    super(detail);
  }

  /** True where trying again may help. */
  get passing(): boolean {
    return this.kind === 'away' || this.status >= 500 || this.status === 429;
  }
}
