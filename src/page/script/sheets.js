// Sheets that can be drawn nearer: by wheel, buttons and keys; dragged with mouse or finger while they are near.

class NearSheet {
  constructor(figure) {
    this.svg = figure.querySelector('svg');
    this.whole = this.svg.viewBox.baseVal;
    this.box = {x: this.whole.x, y: this.whole.y, width: this.whole.width, height: this.whole.height};
    this.all = {...this.box};
    this.held = null;
    figure.tabIndex = 0;
    figure.setAttribute('role', 'group');
    figure.setAttribute('aria-label', `${this.svg.getAttribute('aria-label')}: plus and minus draw it nearer, arrow keys move it`);
    figure.append(make('div', {className: 'tools'}, button('Nearer', () => this.zoom(1 / 1.5)),
                       button('Farther', () => this.zoom(1.5)), button('Whole sheet', () => this.reset())));
    this.listen(figure);
  }

  listen(figure) {
    this.svg.addEventListener('wheel', (e) => {
      if (!e.ctrlKey && !this.isNear()) return;  // a page is scrolled past its sheets
      e.preventDefault();
      this.zoom(e.deltaY > 0 ? 1.2 : 1 / 1.2, this.placeOf(e));
    }, {passive: false});
    this.svg.addEventListener('dblclick', (e) => this.zoom(1 / 2, this.placeOf(e)));
    this.svg.addEventListener('pointerdown', (e) => this.take(e));
    this.svg.addEventListener('pointermove', (e) => this.drag(e));
    for (const end of ['pointerup', 'pointercancel']) this.svg.addEventListener(end, () => (this.held = null));
    figure.addEventListener('keydown', (e) => this.key(e));
  }

  isNear() { return this.box.width < this.all.width * 0.99; }

  /** A pointer's place on the sheet. */
  placeOf(e) {
    const r = this.svg.getBoundingClientRect();
    return {x: this.box.x + (e.clientX - r.left) / r.width * this.box.width,
            y: this.box.y + (e.clientY - r.top) / r.height * this.box.height};
  }

  zoom(factor, at = {x: this.box.x + this.box.width / 2, y: this.box.y + this.box.height / 2}) {
    const width = Math.min(this.all.width, Math.max(this.all.width / 16, this.box.width * factor));
    const scale = width / this.box.width;
    this.show(at.x - (at.x - this.box.x) * scale, at.y - (at.y - this.box.y) * scale, width);
  }

  /** Kept on the sheet: nobody drags into nothing. */
  show(x, y, width) {
    const height = width * this.all.height / this.all.width;
    const inside = (v, least, most) => Math.max(least, Math.min(v, most));
    this.box = {x: inside(x, this.all.x, this.all.x + this.all.width - width),
                y: inside(y, this.all.y, this.all.y + this.all.height - height), width, height};
    this.svg.setAttribute('viewBox', [this.box.x, this.box.y, width, height].map((v) => v.toFixed(2)).join(' '));
    this.svg.classList.toggle('near', this.isNear());
  }

  reset() { this.show(this.all.x, this.all.y, this.all.width); }

  take(e) {
    if (!this.isNear()) return;
    this.svg.setPointerCapture(e.pointerId);
    this.held = this.placeOf(e);
  }

  drag(e) {
    if (!this.held) return;
    const now = this.placeOf(e);
    this.show(this.box.x + this.held.x - now.x, this.box.y + this.held.y - now.y, this.box.width);
  }

  key(e) {
    const step = this.box.width / 10;
    const moves = {ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step]};
    if (e.key === '+' || e.key === '=') this.zoom(1 / 1.5);
    else if (e.key === '-') this.zoom(1.5);
    else if (e.key === '0') this.reset();
    else if (moves[e.key] && this.isNear()) this.show(this.box.x + moves[e.key][0], this.box.y + moves[e.key][1], this.box.width);
    else return;
    e.preventDefault();
  }
}

document.querySelectorAll('figure.paper').forEach((figure) => new NearSheet(figure));
