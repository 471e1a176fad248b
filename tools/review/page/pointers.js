// Mouse, pen and touch on the light table: drag to shift, pinch or wheel to come closer. A tap centres, so that
// nothing needs dragging.
export function followPointers(stage, canvas) {
  const held = new Map();
  let moved = 0, spread = 0;
  const distance = () => { const [a, b] = [...held.values()]; return Math.hypot(a.x - b.x, a.y - b.y); };
  canvas.addEventListener('pointerdown', (event) => {
    canvas.setPointerCapture(event.pointerId);
    held.set(event.pointerId, { x: event.clientX, y: event.clientY });
    moved = 0;
    if (held.size === 2) spread = distance();
  });
  canvas.addEventListener('pointermove', (event) => {
    const before = held.get(event.pointerId);
    if (!before) return;
    const dx = event.clientX - before.x, dy = event.clientY - before.y;
    held.set(event.pointerId, { x: event.clientX, y: event.clientY });
    moved += Math.abs(dx) + Math.abs(dy);
    if (held.size === 2) {
      stage.zoomBy(distance() / spread, stage.at(event));
      spread = distance();
    } else {
      const scale = stage.layout().scale / stage.zoom;
      stage.move(-dx / scale, -dy / scale);
    }
  });
  const lift = (event) => {
    const tap = held.delete(event.pointerId) && event.type === 'pointerup' && moved < 6 && held.size === 0;
    if (tap && stage.zoom > 1) Object.assign(stage, stage.at(event)), stage.keepInside();
  };
  canvas.addEventListener('pointerup', lift);
  canvas.addEventListener('pointercancel', lift);
  canvas.addEventListener('dblclick', (event) => stage.zoomBy(2, stage.at(event)));
  canvas.addEventListener('wheel', (event) => {
    event.preventDefault();
    stage.zoomBy(Math.exp(-event.deltaY / 400), stage.at(event));
  }, { passive: false });
}
