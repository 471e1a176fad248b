// Marks on the strips: spots tied or not, and what was not seen.

export const W = 160, H = 512; // a strip's own pixels
const INK = 'rgba(10, 8, 6, .85)';
// Shape first, colour second: ring, triangle, square.
export const MARK = { both: '#a7ecf2', capture: '#e2b6ff', candidate: '#e4f58a' };

export function mark(c, shape, { x, y }, r, colour) {
  c.beginPath();
  if (shape === 'ring') c.arc(x, y, r, 0, 7);
  else if (shape === 'square') c.rect(x - r * 0.9, y - r * 0.9, r * 1.8, r * 1.8);
  else { c.moveTo(x, y - r * 1.3); c.lineTo(x + r * 1.2, y + r * 0.8); c.lineTo(x - r * 1.2, y + r * 0.8); c.closePath(); }
  c.lineWidth = 4;
  c.strokeStyle = INK;
  c.stroke();
  c.lineWidth = 2;
  c.strokeStyle = colour;
  c.stroke();
}

// The number of a tie, at its ring's shoulder, the same on both strips.
export function number(c, n, { x, y }, r, { top, right }) {
  c.font = '600 12px system-ui, sans-serif';
  c.lineWidth = 3;
  c.strokeStyle = INK;
  c.fillStyle = '#ffffff';
  // Where it would be cut off at the rim it stands at another shoulder.
  const beside = x + r * 0.7 + 16 < right, above = y - r * 0.7 > top + 10;
  const at = [beside ? x + r * 0.7 + 1 : x - r * 0.7 - 15, above ? y - r * 0.7 : y + r * 0.7 + 10];
  c.strokeText(String(n), ...at);
  c.fillText(String(n), ...at);
}

// The mask as hatching: skin that was not plainly seen.
export function hatched(mask, lean) {
  const canvas = new OffscreenCanvas(W, H);
  const c = canvas.getContext('2d', { willReadFrequently: true });
  c.drawImage(mask, 0, 0, W, H);
  const pixels = c.getImageData(0, 0, W, H);
  for (let i = 0; i < W * H; ++i) {
    const unseen = pixels.data[4 * i] < 128;
    const line = (((i % W) + lean * Math.floor(i / W)) % 10 + 10) % 10 < 3;
    pixels.data.set(unseen ? (line ? [235, 235, 235, 230] : [40, 40, 40, 140]) : [0, 0, 0, 0], 4 * i);
  }
  c.putImageData(pixels, 0, 0);
  return canvas;
}
