/** From which side the wind comes, for a side that it blows to; from the right where nothing was said. */
export const fromSide = (blowsTo: string): 'left' | 'right' => (blowsTo === 'right' ? 'left' : 'right');
