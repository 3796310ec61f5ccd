// Colour on the way to the eye.
const channels = (hex) => [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16));
const toHex = (rgb) => "#" + rgb.map((c) => Math.round(c).toString(16).padStart(2, "0")).join("");
export const mix = (a, b, t) => { const [p, q] = [channels(a), channels(b)]; return toHex(p.map((c, i) => c + (q[i] - c) * t)); };
export const luminance = (hex) => {
  const [r, g, b] = channels(hex).map((c) => { c /= 255; return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4; });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
export const overInk = (hex) => luminance(hex) > 0.22 ? "#17120c" : "#fffdf7";
