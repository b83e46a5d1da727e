// What one does with the view: lift the parts apart, cut the room open, measure between two points, fill it with water.

/** A slider with its words; `told` gets what the action answers. */
function slider(id, words, properties, action) {
  const input = make('input', {type: 'range', id, ...properties}), told = make('output', {htmlFor: id});
  const act = () => (told.textContent = action(Number(input.value)) ?? '');
  input.addEventListener('input', act);
  act();
  return make('div', {className: 'slider'}, make('label', {htmlFor: id}, words), input, told);
}

/** A plane along an axis takes away what lies beyond it; at its far end it cuts nothing. */
function cutSlider(view, axis, words, ends) {
  const room = view.box(), low = axis === 2 ? room.min.y : axis === 0 ? room.min.x : -room.max.z;
  const high = axis === 2 ? room.max.y : axis === 0 ? room.max.x : -room.min.z;
  return slider('cut-' + 'xyz'[axis], words, {min: 0, max: 200, value: 200}, (value) => {
    const at = low + (high - low) * value / 200, normal = new THREE.Vector3(...[[-1, 0, 0], [0, 0, -1], [0, -1, 0]][axis]);
    // kept is what lies below `at`; along the depth the entry's side goes first, so that one sees in
    view.cuts.set(axis, normal, value === 200 ? null : axis === 1 ? -(low + high - at) : at);
    if (value === 200) return 'whole';
    return `${tapeText((axis === 1 ? low + high - at : at) * 1000, metric)} ${ends}`;
  });
}

/** Two taps, each drawn to a corner that is near: the way between, and along the room's axes. */
class Measure {
  constructor(view, told, labels) {
    Object.assign(this, {view, told, labels, on: false, points: []});
    this.group = new THREE.Group();
    this.tag = make('span', {className: 'tag strong', hidden: true});
    labels.after(this.tag);
    view.scene.add(this.group);
    view.drawn.push(() => this.follow());
  }

  set(on) {
    this.on = on;
    this.points = [];
    this.drawPoints();
    const words = on ? 'Tap two points; corners are caught.' : 'Tap a part to have its name, size, mass and mark.';
    this.told.replaceChildren(make('p', {className: 'quiet'}, words));
  }

  /** The corner of the triangle under a tap, or of the cut's outline, where that is near; else the very point. */
  caught(hit, x, y) {
    const mesh = hit.object, r = this.view.canvas.getBoundingClientRect(), place = mesh.geometry.attributes.position;
    const corners = hit.axis === undefined
        ? [hit.face.a, hit.face.b, hit.face.c].map((i) => mesh.localToWorld(new THREE.Vector3().fromBufferAttribute(place, i)))
        : this.view.cuts.outlines[hit.axis].get(mesh.userData.part.id) ?? [];
    let best = hit.point.clone(), near = 14;
    for (const corner of corners) {
      const p = this.view.onCanvas(corner);
      const away = Math.hypot(p.x - (x - r.left), p.y - (y - r.top));
      if (away < near) near = away, best = corner;
    }
    return {shown: best, real: best.clone().sub(mesh.userData.move), part: mesh.userData.part.id};
  }

  tap(hit, x, y) {
    if (this.points.length === 2) this.points = [];
    this.points.push(this.caught(hit, x, y));
    this.drawPoints();
    if (this.points.length === 2) this.tell();
  }

  drawPoints() {
    while (this.group.children.length) this.group.remove(this.group.children[0]);
    const ink = new THREE.MeshBasicMaterial({color: 0xb3261e, depthTest: false});
    for (const p of this.points) {
      const ball = new THREE.Mesh(new THREE.SphereGeometry(0.008, 12, 8), ink);
      ball.position.copy(p.shown);
      ball.renderOrder = 9;
      this.group.add(ball);
    }
    if (this.points.length === 2) {
      const line = new THREE.Line(new THREE.BufferGeometry().setFromPoints(this.points.map((p) => p.shown)),
                                  new THREE.LineBasicMaterial({color: 0xb3261e, depthTest: false}));
      line.renderOrder = 9;
      this.group.add(line);
    }
    this.tag.hidden = this.points.length !== 2;
    this.view.draw();
  }

  /** As built, however far the parts are lifted. */
  tell() {
    const [a, b] = this.points.map((p) => toAlcove(p.real)), way = b.map((v, i) => v - a[i]);
    this.length = Math.hypot(...way);
    this.tag.textContent = tapeText(this.length, metric);
    const words = ['to the right', 'to the back', 'up'], back = ['to the left', 'to the entry', 'down'];
    const rows = way.map((v, i) => make('li', {}, `${tapeText(Math.abs(v), metric)} ${v < 0 ? back[i] : words[i]}`));
    this.told.replaceChildren(make('h3', {}, `Distance ${tapeText(this.length, metric)}`), make('ul', {}, ...rows),
                              make('p', {className: 'quiet'}, `From ${this.points[0].part} to ${this.points[1].part}.`));
    this.view.draw();
  }

  follow() {
    if (this.points.length !== 2) return;
    const p = this.view.onCanvas(this.points[0].shown.clone().lerp(this.points[1].shown, 0.5));
    this.tag.style.transform = `translate(${p.x.toFixed(1)}px, ${p.y.toFixed(1)}px) translate(-50%, -130%)`;
  }
}
