// Two strips on a canvas, head up: side by side with ties, one over the other, in turn, or their difference.
// One zoom and one shift serve both, so that the eye stays at the same place of the body.

const W = 160, H = 512; // a strip's own pixels
const GAP = 84;
const INK = 'rgba(10, 8, 6, .85)';
// Shape first, colour second: ring, triangle, square.
const MARK = { both: '#a7ecf2', capture: '#e2b6ff', candidate: '#e4f58a' };

export class Stage {
  constructor(canvas) {
    this.canvas = canvas;
    this.context = canvas.getContext('2d');
    this.pictures = {}; // capture, candidate: { strip, mask }
    this.ties = null;
    this.mode = 'beside';
    this.mix = 0.5;
    this.turn = 0; // which one is shown when they are shown in turn
    this.marks = true;
    this.masks = false;
    this.reset();
    this.follow();
    this.watcher = new ResizeObserver(() => this.draw());
    this.watcher.observe(canvas);
  }

  close() { this.watcher.disconnect(); }
  reset() { this.zoom = 1; this.x = W / 2; this.y = H / 2; this.draw(); }

  set(change) { Object.assign(this, change); this.draw(); }

  zoomBy(factor, at) {
    const next = Math.min(8, Math.max(1, this.zoom * factor));
    if (at) {
      this.x = at.x + (this.x - at.x) * (this.zoom / next);
      this.y = at.y + (this.y - at.y) * (this.zoom / next);
    }
    this.zoom = next;
    this.keepInside();
  }
  move(dx, dy) { this.x += dx / this.zoom; this.y += dy / this.zoom; this.keepInside(); }
  keepInside() {
    if (this.zoom === 1) { this.x = W / 2; this.y = H / 2; }
    this.x = Math.min(W, Math.max(0, this.x));
    this.y = Math.min(H, Math.max(0, this.y));
    this.draw();
  }

  // Where things lie now, in CSS pixels: one panel, or two with the ties between them.
  layout() {
    const box = this.canvas.getBoundingClientRect();
    const two = this.mode === 'beside';
    const scale = Math.min(box.height / H, (box.width - (two ? GAP : 0)) / (two ? 2 * W : W)) || 1;
    const wide = Math.min(W * scale * this.zoom, two ? (box.width - GAP) / 2 : box.width);
    const high = Math.min(H * scale * this.zoom, box.height);
    const top = Math.max(0, (box.height - high) / 2);
    const panels = two
      ? [{ left: (box.width - GAP) / 2 - wide, who: 'capture' }, { left: (box.width + GAP) / 2, who: 'candidate' }]
      : [{ left: (box.width - wide) / 2, who: 'over' }];
    return { box, scale: scale * this.zoom, wide, high, top, panels };
  }

  at(event) {
    const { box, scale, wide, high, top, panels } = this.layout();
    const x = event.clientX - box.left, y = event.clientY - box.top;
    const panel = panels.find((one) => x >= one.left && x <= one.left + wide) ?? panels[0];
    return { x: this.x + (x - panel.left - wide / 2) / scale, y: this.y + (y - top - high / 2) / scale };
  }

  draw() {
    const { box, scale, wide, high, top, panels } = this.layout();
    if (!box.width || !box.height) return;
    const dense = devicePixelRatio || 1;
    const width = Math.round(box.width * dense), height = Math.round(box.height * dense);
    if (this.canvas.width !== width || this.canvas.height !== height) Object.assign(this.canvas, { width, height });
    const c = this.context;
    c.setTransform(dense, 0, 0, dense, 0, 0);
    c.clearRect(0, 0, box.width, box.height);
    c.imageSmoothingQuality = 'high';
    const place = (panel, u, v) => ({
      x: panel.left + wide / 2 + ((v + 1) / 2 * W - this.x) * scale,
      y: top + high / 2 + (u * H - this.y) * scale,
    });
    for (const panel of panels) {
      c.save();
      c.beginPath();
      c.rect(panel.left, top, wide, high);
      c.clip();
      const corner = place(panel, 0, -1);
      const lay = (which, alpha = 1, operation = 'source-over') => {
        const strip = this.pictures[which]?.strip;
        if (!strip) return;
        c.globalAlpha = alpha;
        c.globalCompositeOperation = operation;
        c.drawImage(strip, corner.x, corner.y, W * scale, H * scale);
        c.globalAlpha = 1;
        c.globalCompositeOperation = 'source-over';
      };
      if (panel.who !== 'over') lay(panel.who);
      else if (this.mode === 'turn') lay(this.turn ? 'candidate' : 'capture');
      else if (this.mode === 'difference') { lay('capture'); lay('candidate', 1, 'difference'); }
      else { lay('capture'); lay('candidate', this.mix); }
      if (this.masks) {
        const whose = panel.who === 'over' ? ['capture', 'candidate'] : [panel.who];
        for (const which of whose) this.hatch(which, corner, scale);
      }
      if (this.marks && this.ties) this.drawMarks(panel, (u, v) => place(panel, u, v), scale);
      c.restore();
    }
    if (panels.length === 2 && this.marks && this.ties) this.drawLines(panels, place, wide, top, high);
  }

  // What was not seen plainly: slanted lines, leaning one way on the capture and the other on the candidate.
  hatch(which, corner, scale) {
    const mask = this.pictures[which]?.mask;
    if (!mask) return;
    const pattern = (this.hatches ??= {})[which] ??= hatched(mask, which === 'capture' ? 1 : -1);
    this.context.drawImage(pattern, corner.x, corner.y, W * scale, H * scale);
  }

  drawMarks(panel, place, scale) {
    const size = (area) => Math.max(7, Math.sqrt(area * W * H / Math.PI) * scale * 1.15);
    const on = (which) => panel.who === which || panel.who === 'over';
    for (const { capture, candidate } of this.ties.matched) {
      if (on('capture')) this.mark('ring', place(capture.u, capture.v), size(capture.area), MARK.both);
      if (panel.who === 'candidate') this.mark('ring', place(candidate.u_laid, candidate.v_laid), size(candidate.area), MARK.both);
    }
    if (on('capture'))
      for (const spot of this.ties.only_capture) this.mark('triangle', place(spot.u, spot.v), size(spot.area), MARK.capture);
    if (on('candidate'))
      for (const spot of this.ties.only_candidate) this.mark('square', place(spot.u_laid, spot.v_laid), size(spot.area), MARK.candidate);
  }

  mark(shape, { x, y }, r, colour) {
    const c = this.context;
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

  drawLines([left, right], place, wide, top, high) {
    const c = this.context;
    c.save();
    c.beginPath();
    c.rect(left.left, top, right.left + wide - left.left, high);
    c.clip();
    c.lineWidth = 1.5;
    c.strokeStyle = MARK.both;
    c.globalAlpha = 0.75;
    for (const { capture, candidate } of this.ties.matched) {
      const from = place(left, capture.u, capture.v), to = place(right, candidate.u_laid, candidate.v_laid);
      // Only across the gap: a line over a strip would hide what it ties.
      c.beginPath();
      c.moveTo(left.left + wide, from.y);
      c.lineTo(right.left, to.y);
      c.stroke();
    }
    c.restore();
  }

  // Mouse, pen and touch. A tap centres, so that nothing needs dragging.
  follow() {
    const held = new Map();
    let moved = 0, spread = 0;
    const distance = () => { const [a, b] = [...held.values()]; return Math.hypot(a.x - b.x, a.y - b.y); };
    this.canvas.addEventListener('pointerdown', (event) => {
      this.canvas.setPointerCapture(event.pointerId);
      held.set(event.pointerId, { x: event.clientX, y: event.clientY });
      moved = 0;
      if (held.size === 2) spread = distance();
    });
    this.canvas.addEventListener('pointermove', (event) => {
      const before = held.get(event.pointerId);
      if (!before) return;
      const dx = event.clientX - before.x, dy = event.clientY - before.y;
      held.set(event.pointerId, { x: event.clientX, y: event.clientY });
      moved += Math.abs(dx) + Math.abs(dy);
      if (held.size === 2) {
        this.zoomBy(distance() / spread, this.at(event));
        spread = distance();
      } else {
        const scale = this.layout().scale / this.zoom;
        this.move(-dx / scale, -dy / scale);
      }
    });
    const lift = (event) => {
      const tap = held.delete(event.pointerId) && event.type === 'pointerup' && moved < 6 && held.size === 0;
      if (tap && this.zoom > 1) Object.assign(this, this.at(event)), this.keepInside();
    };
    this.canvas.addEventListener('pointerup', lift);
    this.canvas.addEventListener('pointercancel', lift);
    this.canvas.addEventListener('dblclick', (event) => this.zoomBy(2, this.at(event)));
    this.canvas.addEventListener('wheel', (event) => {
      event.preventDefault();
      this.zoomBy(Math.exp(-event.deltaY / 400), this.at(event));
    }, { passive: false });
  }
}

function hatched(mask, lean) {
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
