// Two strips on a canvas: beside each other with ties, one over the other, in turn, or their difference. Head up, or
// lying with the head left where that makes them larger. One zoom and one shift serve both, so that the eye stays at
// the same place of the body.

import { hatched, H, mark, MARK, number, W } from './marks.js';
import { followPointers } from './pointers.js';

const GAP = 84, GAP_LYING = 44; // where the ties run; narrower on a narrow screen

export class Stage {
  constructor(canvas) {
    this.canvas = canvas;
    this.context = canvas.getContext('2d');
    this.pictures = {}; // capture, candidate: { strip, mask }
    this.ties = null;
    this.mode = 'beside';
    this.way = 'auto'; // 'up', 'lying' or whichever is larger
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
  // By so many pixels of the screen, at zoom 1 and scale 1.
  move(dx, dy) {
    const [x, y] = this.layout().lying ? [-dy, dx] : [dx, dy];
    this.x += x / this.zoom;
    this.y += y / this.zoom;
    this.keepInside();
  }
  keepInside() {
    if (this.zoom === 1) { this.x = W / 2; this.y = H / 2; }
    this.x = Math.min(W, Math.max(0, this.x));
    this.y = Math.min(H, Math.max(0, this.y));
    this.draw();
  }

  // Strips of `wide` x `high` in the box, one or two of them: how large they get, upright or lying.
  scales(box, two) {
    const gap = Math.min(GAP, box.width / 9), lyingGap = Math.min(GAP_LYING, box.height / 9);
    return {
      up: { gap, scale: Math.min(box.height / H, (box.width - (two ? gap : 0)) / (two ? 2 * W : W)) },
      lying: { gap: lyingGap, scale: Math.min(box.width / H, (box.height - (two ? lyingGap : 0)) / (two ? 2 * W : W)) },
    };
  }

  // Where things lie now, in CSS pixels: one panel, or two with the ties between them.
  layout() {
    const box = this.canvas.getBoundingClientRect();
    const two = this.mode === 'beside' && !this.alone;
    const ways = this.scales(box, two);
    const lying = this.way === 'auto' ? ways.lying.scale > ways.up.scale * 1.1 : this.way === 'lying';
    const { gap, scale: fitted } = lying ? ways.lying : ways.up;
    const scale = (fitted || 1) * this.zoom;
    const room = { wide: two && !lying ? (box.width - gap) / 2 : box.width, high: two && lying ? (box.height - gap) / 2 : box.height };
    const wide = Math.min((lying ? H : W) * scale, room.wide), high = Math.min((lying ? W : H) * scale, room.high);
    const left = (box.width - wide) / 2, top = (box.height - high) / 2;
    const alone = [{ left, top, who: this.alone ? 'capture' : 'over' }];
    const upright = [{ left: (box.width - gap) / 2 - wide, top, who: 'capture' }, { left: (box.width + gap) / 2, top, who: 'candidate' }];
    const stacked = [{ left, top: (box.height - gap) / 2 - high, who: 'capture' }, { left, top: (box.height + gap) / 2, who: 'candidate' }];
    return { box, scale, wide, high, lying, panels: !two ? alone : lying ? stacked : upright };
  }

  // The strip's own pixel under the pointer.
  at(event) {
    const { box, scale, wide, high, lying, panels } = this.layout();
    const x = event.clientX - box.left, y = event.clientY - box.top;
    const within = (one) => x >= one.left && x <= one.left + wide && y >= one.top && y <= one.top + high;
    const panel = panels.find(within) ?? panels[0];
    const dx = (x - panel.left - wide / 2) / scale, dy = (y - panel.top - high / 2) / scale;
    return lying ? { x: this.x - dy, y: this.y + dx } : { x: this.x + dx, y: this.y + dy };
  }

  draw() {
    const now = this.layout(), { box, scale, wide, high, lying, panels } = now;
    if (!box.width || !box.height) return;
    const dense = devicePixelRatio || 1;
    const width = Math.round(box.width * dense), height = Math.round(box.height * dense);
    if (this.canvas.width !== width || this.canvas.height !== height) Object.assign(this.canvas, { width, height });
    const c = this.context;
    c.setTransform(dense, 0, 0, dense, 0, 0);
    c.clearRect(0, 0, box.width, box.height);
    c.imageSmoothingQuality = 'high';
    const place = (panel, u, v) => {
      const x = ((v + 1) / 2 * W - this.x) * scale, y = (u * H - this.y) * scale;
      const [right, down] = lying ? [y, -x] : [x, y]; // turned a quarter, not mirrored
      return { x: panel.left + wide / 2 + right, y: panel.top + high / 2 + down };
    };
    for (const panel of panels) {
      c.save();
      c.beginPath();
      c.rect(panel.left, panel.top, wide, high);
      c.clip();
      const corner = place(panel, 0, -1);
      const paint = (picture, alpha = 1, operation = 'source-over') => {
        c.save();
        c.globalAlpha = alpha;
        c.globalCompositeOperation = operation;
        c.translate(corner.x, corner.y);
        if (lying) c.rotate(-Math.PI / 2);
        c.drawImage(picture, 0, 0, W * scale, H * scale);
        c.restore();
      };
      const lay = (which, ...more) => this.pictures[which]?.strip && paint(this.pictures[which].strip, ...more);
      if (panel.who !== 'over') lay(panel.who);
      else if (this.mode === 'turn') lay(this.turn ? 'candidate' : 'capture');
      else if (this.mode === 'difference') {
        lay('capture');
        lay('candidate', 1, 'difference');
        this.greyed(panel.left, panel.top, wide, high);
      }
      else { lay('capture'); lay('candidate', this.mix); }
      if (this.masks) {
        const whose = panel.who === 'over' ? ['capture', 'candidate'] : [panel.who];
        for (const which of whose) this.hatch(which, paint);
      }
      if (this.marks && this.ties) this.drawMarks(panel, (u, v) => place(panel, u, v), now);
      c.restore();
    }
    if (panels.length === 2 && this.marks && this.ties) this.drawLines(now, place);
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
  hatch(which, paint) {
    const mask = this.pictures[which]?.mask;
    if (!mask) return;
    paint((this.hatches ??= {})[which] ??= hatched(mask, which === 'capture' ? 1 : -1));
  }

  drawMarks(panel, place, { scale, wide }) {
    const size = (area) => Math.max(5, Math.sqrt(area * W * H / Math.PI) * scale * 1.15); // just outside the spot
    const on = (which) => panel.who === which || panel.who === 'over';
    const c = this.context;
    if (on('capture'))
      for (const spot of this.ties.only_capture) mark(c, 'triangle', place(spot.u, spot.v), size(spot.area), MARK.capture);
    if (on('candidate'))
      for (const spot of this.ties.only_candidate) mark(c, 'square', place(spot.u_laid, spot.v_laid), size(spot.area), MARK.candidate);
    const rings = this.ties.matched.map(({ capture, candidate }) => (on('capture') ? [place(capture.u, capture.v), size(capture.area)]
      : [place(candidate.u_laid, candidate.v_laid), size(candidate.area)]));
    for (const [at, radius] of rings) mark(c, 'ring', at, radius, MARK.both);
    rings.forEach(([at, radius], i) => number(c, i + 1, at, radius, { top: panel.top, right: panel.left + wide }));
  }

  drawLines({ wide, high, lying, panels: [first, second] }, place) {
    const c = this.context;
    c.save();
    c.beginPath();
    c.rect(Math.min(first.left, second.left), first.top, second.left + wide - first.left, second.top + high - first.top);
    c.clip();
    c.lineWidth = 1.5;
    c.strokeStyle = MARK.both;
    c.globalAlpha = 0.75;
    for (const { capture, candidate } of this.ties.matched) {
      const from = place(first, capture.u, capture.v), to = place(second, candidate.u_laid, candidate.v_laid);
      // Only across the gap: a line over a strip would hide what it ties.
      c.beginPath();
      c.moveTo(lying ? from.x : first.left + wide, lying ? first.top + high : from.y);
      c.lineTo(lying ? to.x : second.left, lying ? second.top : to.y);
      c.stroke();
    }
    c.restore();
  }
}
