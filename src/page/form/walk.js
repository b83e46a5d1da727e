// The order in which one walks the room, what only some kinds need, and pictures of what to measure and from where.

const WALK = [
  {title: 'The job', sections: ['job']},
  {title: 'The room', picture: 'room', sections: ['alcove', 'survey.plan', 'survey', 'survey.width']},
  {title: 'The floor', picture: 'floor', sections: ['survey.floor', 'floor', 'floor.joists']},
  {title: 'The walls', picture: 'wall', sections: ['survey.plumb', 'survey.studs', 'walls']},
  {title: 'The drain', picture: 'drain', sections: ['drain', 'trap']},
  {title: 'The base', sections: ['base', 'liner']},
  {title: 'The bench', picture: 'bench', sections: ['bench'], only: 'The room has a bench'},
  {title: 'The bed', sections: ['bed', 'mix']},
  {title: 'Everything else', sections: null},
  {title: 'The base as it lies in the bed', sections: ['as_set']},
  {title: 'As built', sections: ['as_built']}
];

/** Keys and sections that only some kinds need: asked for where the other key holds one of the words. */
const NEEDS = {
  'floor.joists': ['floor.kind', 'joists'],
  'base.ribs': ['base.underside', 'shell'],
  'base.shell': ['base.underside', 'shell'],
  'base.rib_depth': ['base.underside', 'shell'],
  'base.rise': ['base.pattern', 'level-rim'],
  'drain.opening': ['drain.kind', 'point'],
  'drain.length': ['drain.kind', 'line'],
  'drain.direction': ['drain.kind', 'line'],
  'bench.frame.track': ['bench.frame.kind', 'steel'],
  'bench.frame.web': ['bench.frame.kind', 'steel'],
  'bench.frame.species': ['bench.frame.kind', 'timber'],
  'bench.frame.fastener': ['bench.frame.kind', 'timber'],
  'bench.frame.fastener_length': ['bench.frame.kind', 'timber'],
  'bench.frame.fasteners_at_stud': ['bench.frame.kind', 'timber'],
  'bench.frame.rail_fastener': ['bench.frame.kind', 'timber'],
  'bench.frame.rail_fastener_length': ['bench.frame.kind', 'timber'],
  'bench.frame.fasteners_at_rail': ['bench.frame.kind', 'timber'],
  'bench.frame.deck_fastener': ['bench.frame.kind', 'timber'],
  'bench.frame.deck_fastener_length': ['bench.frame.kind', 'timber']
};

/** Sizes of what a base may have none of: where the other size of it is nothing, there is nothing to measure. */
const SIZES_OF_NONE = {'base.threshold.height': 'base.threshold.width', 'base.upstands.height': 'base.upstands.thickness'};

/** A section that no step names goes where its parent is asked for; where that is nowhere, to the step for everything else. */
function sectionsOf(step, table) {
  const named = WALK.flatMap((s) => s.sections ?? []), parent = (path) => path.split('.').slice(0, -1).join('.');
  const strays = table.filter((s) => !named.includes(s.path));
  if (!step.sections) return strays.filter((s) => !named.includes(parent(s.path)));
  return step.sections.flatMap((path) => [table.find((s) => s.path === path), ...strays.filter((s) => parent(s.path) === path)])
      .filter(Boolean);
}

/** Pictures are part of the page; one is moved to where it belongs. */
const pictureOf = (name) => $('picture-' + name);
