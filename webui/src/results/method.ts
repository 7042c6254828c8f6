/** A programme's method in plain words. */

import { m } from '../lib/messages';
import type { MethodUsed } from './types';

/** A method's name as it is spoken of; an unknown one as it is written. */
export function methodName(method: string): string {
  return known(method) ? m.method.name[method] : method;
}

/** The method that made the scores: the fallback where there was one. */
export function used(method: MethodUsed): string {
  return method.fallback || method.name;
}

/** `consensus of 7 seats` */
export function methodLine(method: MethodUsed): string {
  return m.method.by(methodName(used(method)), method.seats);
}

/** What the method does, and why another one was used where that is so. */
export function methodNotes(method: MethodUsed): string[] {
  const name = used(method);
  const notes = known(name) ? [m.method.how[name]] : [];
  if (method.fallback) notes.unshift(m.method.fallback(methodName(method.name), methodName(method.fallback)));
  return notes;
}

function known(method: string): method is keyof typeof m.method.name {
  return Object.hasOwn(m.method.name, method);
}
