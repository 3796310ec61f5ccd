// How the cloth is looked at.
export const CHART = 0, STITCHED = 1, BACK = 2;
