// Two strips on a canvas, head up: side by side with ties, one over the other, in turn, or their difference.
// One zoom and one shift serve both, so that the eye stays at the same place of the body.

import { hatched, H, mark, MARK, W } from './marks.js';
import { followPointers } from './pointers.js';

const GAP = 84; // where the ties run; narrower on a narrow screen


export class Stage {
  constructor(canvas) {
    this.canvas = canvas;
    this.context = canvas.getContext('2d');
    this.pictures = {}; // capture, candidate: { strip, mask }
    this.ties = null;
    this.mode = 'beside';
    this.mix = 0.5;
    this.turn = 0; // which one is shown when they are shown in turn
    this.alone = false; // a capture without a candidate
    this.marks = true;
    this.masks = false;
    this.reset();
    followPointers(this, canvas);
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
    const two = this.mode === 'beside' && !this.alone;
    const gap = Math.min(GAP, box.width / 9);
    const scale = Math.min(box.height / H, (box.width - (two ? gap : 0)) / (two ? 2 * W : W)) || 1;
    const wide = Math.min(W * scale * this.zoom, two ? (box.width - gap) / 2 : box.width);
    const high = Math.min(H * scale * this.zoom, box.height);
    const top = Math.max(0, (box.height - high) / 2);
    const panels = two
      ? [{ left: (box.width - gap) / 2 - wide, who: 'capture' }, { left: (box.width + gap) / 2, who: 'candidate' }]
      : [{ left: (box.width - wide) / 2, who: this.alone ? 'capture' : 'over' }];
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
      else if (this.mode === 'difference') {
        lay('capture');
        lay('candidate', 1, 'difference');
        this.greyed(panel.left, top, wide, high);
      }
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

  // A difference in colour is mostly one of light: what is left in grey, and brighter, is the pattern's.
  greyed(left, top, wide, high) {
    const c = this.context;
    for (const [operation, colour] of [['saturation', '#000'], ['color-dodge', '#707070']]) {
      c.globalCompositeOperation = operation;
      c.fillStyle = colour;
      c.fillRect(left, top, wide, high);
    }
    c.globalCompositeOperation = 'source-over';
  }

  // What was not seen plainly: slanted lines, leaning one way on the capture and the other on the candidate.
  hatch(which, corner, scale) {
    const mask = this.pictures[which]?.mask;
    if (!mask) return;
    const pattern = (this.hatches ??= {})[which] ??= hatched(mask, which === 'capture' ? 1 : -1);
    this.context.drawImage(pattern, corner.x, corner.y, W * scale, H * scale);
  }

  drawMarks(panel, place, scale) {
    // Round what is one spot; a blotch that runs over half the belly is marked at its middle alone.
    const size = (area) => Math.min(W * scale / 8, Math.max(7, Math.sqrt(area * W * H / Math.PI) * scale * 1.15));
    const on = (which) => panel.who === which || panel.who === 'over';
    for (const { capture, candidate } of this.ties.matched) {
      if (on('capture')) mark(this.context, 'ring', place(capture.u, capture.v), size(capture.area), MARK.both);
      if (panel.who === 'candidate') mark(this.context, 'ring', place(candidate.u_laid, candidate.v_laid), size(candidate.area), MARK.both);
    }
    if (on('capture'))
      for (const spot of this.ties.only_capture) mark(this.context, 'triangle', place(spot.u, spot.v), size(spot.area), MARK.capture);
    if (on('candidate'))
      for (const spot of this.ties.only_candidate) mark(this.context, 'square', place(spot.u_laid, spot.v_laid), size(spot.area), MARK.candidate);
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
}
