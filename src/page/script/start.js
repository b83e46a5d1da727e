// Puts the view where the picture stood. Where a browser has no WebGL the picture stays, and the page says so.

function tabs(names, chosen) {
  const set = make('fieldset', {className: 'choice'}, make('legend', {}, 'Colours'));
  for (const [name, words] of names) {
    const input = make('input', {type: 'radio', name: 'map', id: 'map-' + name, value: name, checked: name === 'none'});
    input.addEventListener('change', () => chosen(name));
    set.append(input, make('label', {htmlFor: input.id}, words));
  }
  return set;
}

/** A tap is a press that does not travel: what travels turns the room. */
function onTap(canvas, action) {
  let down = null;
  canvas.addEventListener('pointerdown', (e) => (down = {x: e.clientX, y: e.clientY}));
  canvas.addEventListener('pointerup', (e) => {
    if (down && Math.hypot(e.clientX - down.x, e.clientY - down.y) < 6) action(e.clientX, e.clientY);
    down = null;
  });
}

function panelOf(view, parts, maps, measure, places, told) {
  const dips = viewData.water.dips;
  const taking = make('input', {type: 'checkbox', id: 'measure'});
  taking.addEventListener('change', () => measure.set(taking.checked));
  const reset = button('Whole room', () => {
    places.clear();
    parts.nothing();
    view.home();
  });
  const panel = make('div', {className: 'panel'},
    make('div', {className: 'row'}, reset, make('span', {}, taking, make('label', {htmlFor: 'measure'}, 'Measure'))), told,
    tabs([['none', 'Parts'], ['falls', 'Falls'], ['bed', 'Bed'], ['gaps', 'Gaps']], (name) => maps.show(name)), maps.legend,
    slider('lift', 'Lift apart', {min: 0, max: 100, value: 0}, (v) => {
      parts.lift(v / 100);
      maps.show(maps.name);
      return v ? 'apart' : 'together';
    }));
  if (dips.length) panel.append(slider('water', 'Water', {min: 0, max: dips.length, value: 0}, (v) => maps.flood(v)));
  panel.append(make('details', {}, make('summary', {}, 'Cut open'), cutSlider(view, 0, 'From the right', 'from the left'),
                    cutSlider(view, 1, 'From the entry', 'from the entry'), cutSlider(view, 2, 'From above', 'above the datum')),
               make('details', {open: innerWidth > 700}, make('summary', {}, 'Show and hide'), parts.list()));
  return panel;
}

/** Arrow keys turn the room, + and - come nearer, 0 shows it whole: for whoever has no mouse. */
function keys(view, canvas) {
  const turn = (across, up) => {
    const way = view.eye.position.clone().sub(view.orbit.target), ball = new THREE.Spherical().setFromVector3(way);
    ball.theta += across, ball.phi = Math.min(3, Math.max(0.05, ball.phi + up));
    view.look(view.orbit.target.clone(), new THREE.Vector3().setFromSpherical(ball), ball.radius, false);
  };
  const near = (by) => {
    const way = view.eye.position.clone().sub(view.orbit.target);
    view.look(view.orbit.target.clone(), way, way.length() * by, false);
  };
  const actions = {ArrowLeft: () => turn(-0.15, 0), ArrowRight: () => turn(0.15, 0), ArrowUp: () => turn(0, -0.12), ArrowDown: () => turn(0, 0.12),
                   '+': () => near(0.85), '=': () => near(0.85), '-': () => near(1.18), '0': () => view.home()};
  canvas.addEventListener('keydown', (e) => {
    if (!actions[e.key]) return;
    e.preventDefault();
    e.stopPropagation();
    actions[e.key]();
  }, true);
}

/** The bytes of what the program packed into the page; the browser itself unpacks them. */
function unpacked(text) {
  const packed = new Blob([Uint8Array.from(atob(text), (c) => c.charCodeAt(0))]);
  return new Response(packed.stream().pipeThrough(new DecompressionStream('deflate'))).arrayBuffer();
}

async function startView() {
  const stage = $('stage'), canvas = make('canvas', {tabIndex: 0}), labels = make('div', {className: 'labels', 'aria-hidden': 'true'});
  canvas.setAttribute('role', 'img');
  canvas.setAttribute('aria-label', 'The room in three dimensions. Arrow keys turn it, plus and minus come nearer, 0 shows it whole. ' +
                                    'The tables below tell the same in words.');
  const view = new View(canvas);
  view.orbit.enableKeys = false;
  const told = make('div', {className: 'told', id: 'told'});
  told.setAttribute('aria-live', 'polite');
  const parts = new Parts(view, told), legend = make('p', {className: 'legend'});
  const bytes = await unpacked($('model').textContent);
  new THREE.GLTFLoader().parse(bytes, '', (model) => {
    $('picture').hidden = true;
    stage.classList.add('live');
    stage.append(make('div', {className: 'canvas'}, canvas, labels));
    view.take(model);
    const maps = new Maps(view, parts, legend, labels), measure = new Measure(view, told, labels), places = new Places(view, parts, maps);
    stage.append(panelOf(view, parts, maps, measure, places, told));
    parts.nothing();
    keys(view, canvas);
    onTap(canvas, (x, y) => {
      const hit = view.under(x, y);
      if (measure.on && hit) measure.tap(hit, x, y);
      else if (!measure.on) hit ? parts.tell(hit.object.userData.part) : parts.nothing();
    });
    places.link();
    document.documentElement.dataset.view = `${view.meshes.size}`;
    window.fallwright = {view, parts, maps, measure, places};  // for whoever looks into the page, and for its tests
  }, (error) => noView(String(error)));
}

function noView(why) {
  $('stage').append(make('p', {className: 'quiet'}, 'This browser shows no 3D, so here is the picture alone. ' + why));
  document.documentElement.dataset.view = 'none';
}

window.fallwrightLevel = {card, cardFacets, judgeLevel, lengthOf, tapeText, ruleText, fallText, fallNoBetter, foundAndLimit};
startView().catch((error) => noView(String(error.message ?? error)));
