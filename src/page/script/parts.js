// The parts of the room: a list to show and hide them by role, a tap that tells of one, and what lights up.

class Parts {
  constructor(view, told) {
    this.view = view;
    this.told = told;
    this.lit = new Set();
    this.lifted = 0;
  }

  list() {
    const rows = ROLES.filter((r) => viewData.parts.some((p) => p.role === r.role)).map((r) => {
      const box = make('input', {type: 'checkbox', checked: true, id: 'role-' + r.role});
      box.addEventListener('change', () => this.show(r.role, box.checked));
      const swatch = make('span', {className: 'swatch', 'aria-hidden': 'true'});
      swatch.style.background = styleOf(r.colour);
      const count = viewData.parts.filter((p) => p.role === r.role).length;
      return make('li', {}, box, make('label', {htmlFor: box.id}, swatch, r.words, make('small', {}, ` ${count}`)));
    });
    return make('ul', {className: 'roles'}, ...rows);
  }

  show(role, on) {
    for (const [id, mesh] of this.view.meshes) if (partOf.get(id).role === role) mesh.visible = on;
    const box = $('role-' + role);
    if (box) box.checked = on;
    this.view.draw();
  }

  /** Apart by the order in which they are built; walls go outwards, the rest up or down. */
  lift(share) {
    this.lifted = share;
    for (const mesh of this.view.meshes.values()) {
      const {part, move} = mesh.userData;
      if (part.role === 'wall') move.copy(this.outward(part.id)).multiplyScalar(0.35 * share);
      else move.set(0, (roleOf(part.role)?.lift ?? 0) / 1000 * share, 0);
      mesh.position.copy(move);
    }
    this.view.draw();
  }
  outward(id) {
    if (id.startsWith('wall-left')) return new THREE.Vector3(-1, 0, 0);
    if (id.startsWith('wall-right')) return new THREE.Vector3(1, 0, 0);
    return new THREE.Vector3(0, 0, -1);
  }

  light(ids) {
    this.lit = new Set(ids);
    for (const [id, mesh] of this.view.meshes) {
      mesh.material.emissive.setHex(this.lit.has(id) ? 0x1c6f80 : 0);
      mesh.material.emissiveIntensity = 0.55;
    }
    this.view.draw();
  }

  /** One part, in words: name, size, mass, mark, and how it meets its neighbours. */
  tell(part) {
    this.light([part.id]);
    const size = [0, 1, 2].map((i) => tapeText(part.box[i + 3] - part.box[i], metric)).join(' x ');
    const mass = metric ? `${part.mass_kg.toFixed(1)} kg` : `${(part.mass_kg / 0.45359237).toFixed(1)} lb`;
    const rows = [['Part of', roleOf(part.role)?.words ?? part.role], ['Size, box', size], ['Mass', mass], ['Material', part.material]];
    if (part.mark) rows.push(['Cut mark', part.mark]);
    const stud = viewData.studs.find((s) => s.id === part.id);
    if (stud) rows.push([`Gap to the ${stud.before}`, `${tapeText(stud.gap, metric)} at the upstand's top`]);
    this.told.replaceChildren(make('h3', {}, part.id), this.rows(rows), this.neighbours(part));
  }
  rows(pairs) {
    return make('dl', {}, ...pairs.map(([name, words]) => make('div', {}, make('dt', {}, name), make('dd', {}, words))));
  }

  /** Nearest first; of many that merely touch, how many. */
  neighbours(part) {
    const words = {clash: () => 'runs into it', touch: () => 'touches', gap: (mm) => `${ruleText(mm, metric)} apart`};
    const order = {clash: 0, gap: 1, touch: 2};
    const meets = [...part.meets].sort((a, b) => order[a[1]] - order[b[1]] || a[2] - b[2]);
    if (!meets.length) return make('p', {className: 'quiet'}, 'Meets nothing.');
    const most = 8, items = meets.slice(0, most).map(([other, state, mm]) => make('li', {}, `${other}: ${words[state](mm)}`));
    if (meets.length > most) items.push(make('li', {}, `and ${meets.length - most} more`));
    return make('div', {}, make('h4', {}, 'Meets'), make('ul', {}, ...items));
  }

  nothing() {
    this.light([]);
    this.told.replaceChildren(make('p', {className: 'quiet'}, 'Tap a part to have its name, size, mass and mark.'));
  }
}
