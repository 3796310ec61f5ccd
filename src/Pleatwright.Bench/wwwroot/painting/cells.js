// A cell of the lattice comes in two bytes: its thread + 1, or 0 when bare; and these marks.
export const DOWN = 1, HALF_LEFT = 2, HALF_RIGHT = 4;
