/** Drawings without the empty space around them: on paper every millimetre counts. */

import type { Attachment } from 'svelte/attachments';

/** A drawing smaller than this, in its own units, is not drawn larger: strokes and letters stay alike. */
export type Least = readonly [width: number, height: number];

/** What the strokes of a drawing take up beside its lines. */
const margin = 3;

/** The same figure stands on many pages and is measured once. */
const known = new Map<string, string>();

/** Cuts the drawing in an element to what is drawn; where nothing can be measured it stays as it is. */
export function trimmed(svg: string, least: Least): Attachment<HTMLElement> {
  return (place) => {
    const drawn = place.querySelector('svg');
    const key = `${least} ${svg}`;
    const box = known.get(key) ?? (drawn && trim(measured(drawn), least));
    if (!drawn || !box) return;
    known.set(key, box);
    drawn.setAttribute('viewBox', box);
  };
}

/** The box of what is drawn. It is measured on a copy of a good size: in its place, still without its size, letters would be too wide. */
function measured(drawn: SVGSVGElement): DOMRect | undefined {
  if (!('getBBox' in drawn)) return undefined;
  const copy = drawn.cloneNode(true) as SVGSVGElement;
  copy.setAttribute('width', '1000');
  copy.setAttribute('height', '1000');
  const bench = document.createElement('div');
  bench.className = 'unseen';
  bench.append(copy);
  document.body.append(bench);
  const box = copy.getBBox();
  bench.remove();
  return box;
}

function trim(box: DOMRect | undefined, [width, height]: Least): string | undefined {
  if (!box || box.width + box.height === 0) return undefined;
  const [left, wide] = grown(box.x, box.width, width);
  const [top, high] = grown(box.y, box.height, height);
  return [left, top, wide, high].map((one) => one.toFixed(2)).join(' ');
}

/** A stretch with its margin, and with as much on either side as makes it long enough. */
function grown(start: number, length: number, least: number): [number, number] {
  const grow = Math.max(margin, (least - length) / 2);
  return [start - grow, length + 2 * grow];
}
