// What a touch on the plan means while a card is open: the card says it, the plan asks here.
import { create } from 'zustand';
import type { CardId, Point } from '../engine/wire';
import type { Way } from './geometry';

interface RoomState {
  /** the card that is open */
  card?: CardId;
  /** corners typed so far; undefined when no outline is being described */
  walk?: Point[];
  typed: string;
  place?: (at: Point) => void;
  open: (card: CardId | undefined) => void;
  setWalk: (walk: Point[] | undefined) => void;
  type: (typed: string) => void;
  onPlace: (place: ((at: Point) => void) | undefined) => void;
}

export const useRoom = create<RoomState>()((set) => ({
  typed: '',
  open: (card) => set({ card, place: undefined, typed: '', walk: undefined }),
  setWalk: (walk) => set({ walk }),
  type: (typed) => set({ typed }),
  onPlace: (place) => set({ place }),
}));

export type { Way };
