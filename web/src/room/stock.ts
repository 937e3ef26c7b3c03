// Stock answers of the cards: what a builder would say, and what the document writes for it. Sizes are
// what is usually met, to be corrected where somebody measured: common practice, no source.
import type { Fixture, Layer, Point, Source } from '../engine/wire';

type Material = Layer['material'];

/** Usual thickness in inches of a layer whose thickness nobody measured (for drawing; the engine has its own table). */
const THICK: Partial<Record<Material, number>> = {
  sheet_vinyl: 0.09,
  sheet_linoleum: 0.1,
  vinyl_tile: 0.125,
  asphalt_tile: 0.125,
  ceramic_tile: 0.3125,
  porcelain_tile: 0.375,
  stone_tile: 0.375,
  felt: 0.05,
  adhesive: 0.03,
  hardboard: 0.25,
  particleboard: 0.625,
  plywood_underlayment: 0.25,
  plywood: 0.75,
  osb: 0.71875,
  board: 0.75,
  plank_tg: 1.5,
  cement_board: 0.25,
  mortar_bed: 1.25,
  gypsum_board: 0.5,
  wall_plate: 1.5,
};
export function usualThickness(material: Material): number {
  return THICK[material] ?? 0.5;
}

/** Materials in the order in which they are met from the top down. */
export const MATERIALS: Material[] = [
  'sheet_vinyl',
  'vinyl_tile',
  'sheet_linoleum',
  'ceramic_tile',
  'porcelain_tile',
  'stone_tile',
  'asphalt_tile',
  'felt',
  'adhesive',
  'cement_board',
  'mortar_bed',
  'plywood_underlayment',
  'hardboard',
  'particleboard',
  'plywood',
  'osb',
  'board',
  'plank_tg',
];
export const BOARDS: Material[] = ['board', 'plank_tg'];
export const PANELS: Material[] = ['plywood', 'osb'];
/** Stock thicknesses that a material is sold in. */
export const THICKNESSES: Partial<Record<Material, string[]>> = {
  plywood_underlayment: ['1/4', '3/8', '1/2'],
  hardboard: ['1/8', '1/4'],
  particleboard: ['3/8', '5/8', '3/4'],
  plywood: ['1/2', '5/8', '3/4', '1 1/8'],
  osb: ['7/16', '23/32', '7/8'],
  board: ['3/4', '13/16', '1'],
  plank_tg: ['3/4', '1 1/2'],
  cement_board: ['1/4', '1/2'],
  mortar_bed: ['3/4', '1 1/4', '2'],
  ceramic_tile: ['1/4', '5/16', '3/8'],
  porcelain_tile: ['5/16', '3/8'],
};
export const FACE_WIDTHS = ['3 1/4', '5 1/2', '7 1/4'];

export const SIZES = ['2x6', '2x8', '2x10', '2x12', '4x6', '4x8', '4x10'];
export const SPACINGS = ['12', '16', '19.2', '24', '32', '48'];

type Kind = Fixture['kind'];
/** Wide along the wall, deep from it, in inches. */
export const FOOTPRINTS: [Kind, Point][] = [
  ['toilet', [20, 28]],
  ['tub', [60, 30]],
  ['vanity', [30, 21]],
  ['shower', [36, 36]],
  ['washing_machine', [28, 30]],
  ['dishwasher', [24, 24]],
  ['water_heater', [22, 22]],
  ['cabinet', [36, 24]],
  ['other', [24, 24]],
];
export const SOURCES: Source['kind'][] = ['supply_leak', 'drain_leak', 'seal_leak', 'overflow', 'surface_water', 'condensation', 'roof'];
/** A decade is written as its first year: the older end is the stricter one. */
export const DECADES = ['1930', '1940', '1950', '1960', '1970', '1980', '1990', '2000'];
export const DOOR_WIDTHS = ['24', '28', '30', '32', '36'];
