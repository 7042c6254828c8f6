/** How a picture is made fit for these pages. */

import type { PlotOptions } from '@observablehq/plot';
import type * as Marks from './plot';

/** A picture under a name that is read out. */
export function drawn({ plot }: typeof Marks, options: PlotOptions, name: string): SVGSVGElement {
  const picture = plot(options) as SVGSVGElement;
  // The content policy allows no styles inside a page; what these say stands with the component.
  picture.querySelectorAll('style').forEach((style) => style.remove());
  // A picture is one thing to whoever hears it: its parts have no names, but classes for their looks.
  picture.querySelectorAll('[aria-label]').forEach((part) => {
    part.classList.add(...(part.getAttribute('aria-label') ?? '').split(' '));
    part.removeAttribute('aria-label');
  });
  picture.setAttribute('role', 'img');
  picture.setAttribute('aria-label', name);
  return picture;
}
