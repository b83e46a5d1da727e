// Checks lead to their places: the eye goes there, and the solids or the facet that the check looked at light up.

class Places {
  constructor(view, parts, maps) {
    Object.assign(this, {view, parts, maps});
    this.layer = new THREE.Group();
    view.scene.add(this.layer);
  }

  /** Puts a button at every finding and row whose check has a place. */
  link() {
    for (const node of document.querySelectorAll('[data-check]')) {
      const id = node.dataset.check, place = viewData.places[id];
      if (!place) continue;
      const go = button('Show it', () => this.show(id), {className: 'show'});
      go.setAttribute('aria-label', `Show in the view: ${place.title}`);
      (node.matches('tr') ? node.cells[1] : node).append(go);
    }
  }

  show(id) {
    const place = viewData.places[id], view = this.view;
    const parts = place.parts.filter((p) => view.meshes.has(p));
    for (const p of parts) this.parts.show(partOf.get(p).role, true);
    this.clear();
    this.parts.light(place.facet ? [] : parts);
    this.facet(place);
    if (place.at && !place.facet) this.pin(place.at);
    this.parts.told.replaceChildren(make('h3', {}, place.title), make('p', {className: 'quiet'}, this.words(place, parts)));
    const box = view.box(parts.length ? parts : undefined), at = place.at ? toView(place.at) : box.getCenter(new THREE.Vector3());
    const room = view.box(), aside = (room.getCenter(new THREE.Vector3()).x - at.x) / (room.max.x - room.min.x);
    const from = new THREE.Vector3(2 * aside, 0.9, 1);  // from within the room, so that no wall stands before it
    if (place.at) view.look(at, from, 1.9);
    else view.frame(box, from);
    $('room').scrollIntoView({behavior: calm() ? 'auto' : 'smooth', block: 'start'});
  }

  words(place, parts) {
    if (place.facet) return `Lit up: the facet '${place.facet}'.`;
    if (parts.length > 4) return `Lit up: ${parts.length} parts it looks at.`;
    return parts.length ? `Lit up: ${parts.join(', ')}.` : 'The place it was measured at is marked.';
  }

  clear() {
    while (this.layer.children.length) this.layer.remove(this.layer.children[0]);
  }

  facet(place) {
    const facet = viewData.facets.find((f) => f.surface === place.surface && f.facet === place.facet);
    const mesh = facet && this.view.meshes.get(facet.surface === 'seat' ? 'seat-block' : 'base');
    if (!mesh) return;
    const geometry = new THREE.BufferGeometry(), triangles = this.maps.trianglesIn(mesh, facet);
    geometry.setAttribute('position', cornersOf(triangles, 0.8));
    const lit = new THREE.Mesh(geometry, new THREE.MeshBasicMaterial({color: 0x2f9fb3, transparent: true, opacity: 0.75, side: THREE.DoubleSide}));
    lit.position.copy(mesh.userData.move);
    this.layer.add(lit);
  }

  /** A needle that is seen through everything. */
  pin(at) {
    const ink = new THREE.MeshBasicMaterial({color: 0xb3261e, depthTest: false, transparent: true});
    const ball = new THREE.Mesh(new THREE.SphereGeometry(0.014, 16, 12), ink);
    ball.position.copy(toView(at));
    ball.renderOrder = 9;
    this.layer.add(ball);
  }
}
