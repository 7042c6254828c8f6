/** What is printed, as the pages of this folder hand it on. */

export interface Named {
  id: string;
  name: string;
}

/** From which side the wind blows: which of a figure's two drawings is shown. */
export type Wind = 'right' | 'left';

/** An item of a sequence as the cards show it. */
export interface CardItem {
  /** In the sequence, from 1. */
  number: number;
  /** An overall mark, else a figure. */
  overall: boolean;
  k: number;
  /** The figure's name, else its catalogue numbers; empty where it has neither. */
  name: string;
  elements: string[];
  /** The caller's words; empty where the figure has no moves and no words. */
  call: string;
  /** Begins across the box. */
  across: boolean;
  /** SVG from the service; empty where there is none. */
  drawings: Record<Wind, string>;
}

export interface Sequence {
  items: CardItem[];
  totalK: number;
  figures: number;
  /** What tells two versions apart. */
  digest: string;
  /** Signed off by the office; or common to all, and released by it. */
  accepted: boolean;
  /** Checked, and no error stands. */
  clean: boolean;
  /** Unknown to all but the office until it is released. */
  withheld: boolean;
}

export interface Seat {
  number: number;
  judge: Named;
}

export type State =
  'scheduled' | 'flying' | 'incomplete' | 'unresolved' | 'flown' | 'not-flown' | 'withdrawn' | 'disqualified';

export interface Flight {
  id: string;
  /** Fixed for good; what the judges know a flight by. */
  number: number;
  pilot: { name: string; affiliation: string; aircraft: string };
  state: State;
  /** Left out where none was entered, or none is open to the reader. */
  sequence?: Sequence;
}

/** All that the cards of a programme, or of one flight, are made of. */
export interface Material {
  contest: Named;
  category: Named;
  programme: Named;
  /** The address that the programme's own pages lead to is this programme's; else one flight's. */
  whole: boolean;
  panel: Seat[];
  /** In running order. */
  flights: Flight[];
  /** The sequence that every flight flies; left out where each has its own. */
  shared?: Sequence;
  /** When it was read. */
  readAt: Date;
}
