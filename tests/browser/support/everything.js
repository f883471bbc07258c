// A notebook with every kind of block and of page, whose author writes only names that begin with Xo: whatever else its site
// says are the site's own words.

const BATHS = `---
title: Xo
tags: [Xotag]
---

# Xo

Xo {{ xo-tea.tested }}, {{ xo-later.recipe-changed }}.

\`\`\`recipe
id: xo-tea
title: Xotea
role: developer
makes: 1 l
parts:
  - name: Xoleaf
    water: 500 ml at 90 °C
    add:
      Xodust: 30 g
    steps:
      - steep: 20 min
      - strain
      - cool: 24 °C
  - name: Xoalkali
    water: 400 ml
    add:
      washing soda, anhydrous:
        value: 30 g
        read from: Xobook
      vitamin C powder:
        value: 10 g
        evidence: guessed
    steps:
      - dissolve: 3 min
        vessel: Xojug
      - settle: 5 min
steps:
  - pour: [Xoleaf, Xoalkali]
  - stir: 1 min
  - make up
use:
  temperature: 20–24 °C
  time: 4–6 min
  at: {time: 8 min, temperature: 18 °C}
  for: paper
  agitation: 10 s alle 60 s Xo
  capacity: 20 sheets per litre
keeps: {tray: 1 h, bottle: 1 day}
gas: aired
expect:
  pH: 9.5–11
waste: Xodrain
from: Xofriend
cautions: [Xocare]
\`\`\`

\`\`\`recipe
id: xo-stop
title: Xostop
role: stop
makes: 1 l
add:
  citric acid: 15 g
use:
  capacity: 20 sheets
keeps: 1 day
gas: held
\`\`\`

\`\`\`recipe
id: xo-hypo
title: Xohypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 12 weeks
note: Xonote
\`\`\`

\`\`\`recipe
title: Xobroken
role: developer
  makes: [
\`\`\`

\`\`\`process
id: xo-line
title: Xoline
paper: RC
hands: 1
move: 5 s
steps:
  - bath: xo-tea
    tray: Xoone
    drain: 10 s
    light: red
    slack: 20 s
  - bath: xo-stop
    tray: Xotwo
    time: 30 s
    light: red
    within: 1 min
  - bath: xo-hypo
    tray: Xothree
    time: 2 min
    light: red
    clears: [40 s, 45 s]
    places: 3
  - wash: Xo
    time: 5 min
    changes: 4
    light: room
  - dry: Xostring
    time: 2 h
\`\`\`

\`\`\`ingredient
material: Xodust
also: [Xopowder]
form: dried
contains:
  gallic acid: 0.5–4 % w/w
purity: 90 %
density: 0.4 g/ml
soluble: 20 g/l
pack: 250 g
price: 2.40
hazards: [H319]
source: Xobook
plant:
  name: Xoplant
  part: Xoleaf
  family: Xofamily
  picked: 2031-04-01
  where: Xohill
  allowed by: Xowarden
  named by: Xoname
\`\`\`
`;

const TOOLS = `# Xotools

\`\`\`camera
id: xo-drum
title: Xodrum
pinhole: 0.35 mm
distance: 125 mm
plane: wall, radius 62.5 mm
format: 5×7 in
foil: 0.1 mm
criterion: petzval
wavelength: 550 nm
\`\`\`

\`\`\`camera
id: xo-box
title: Xobox
pinhole:
  value: 0.3 mm
  evidence: measured
distance: 100 mm
plane: flat
format: 4×5 in
\`\`\`

\`\`\`paper
id: xo-paper
title: Xopaper
base: RC
size: 5×7 in
speed: 6
box speed: 250
reciprocity: 1.2
threshold: 1 s
sees: blue-green
grade: 3
silver: 1.5 g/m2
carries: 30 ml/m2
batch: Xo12
opened: 2031-04-01
thickness: 0.2 mm
\`\`\`

\`\`\`safelight
id: xo-lamp
title: Xolamp
lamp: Xobulb
colour: Xored
distance: 1.5 m
switches: colour-changing
tested:
  date: 2031-04-01
  paper: xo-paper
  at: 1.5 m
  bare: clean to 8 min
  pre-exposed: 6 min
\`\`\`

\`\`\`safelight
id: xo-lamp-two
title: Xolamptwo
lamp: Xobulb
colour: Xored
distance: 1 m
\`\`\`
`;

const sheet = (id, when, more) => `
\`\`\`exposure
id: ${id}
title: Xo${id.slice(3)}
when: ${when}
camera: xo-drum
paper: xo-paper
${more}
\`\`\`
`;

const LOG = `---
title: Xoday
date: 2031-05-02
tags: [Xotag, Xolog]
---

# Xoday
${sheet('xo-a', '2031-05-02 11:00', 'light: EV 12.5\nresult: needs +1/2 stop\nby: XoX\nnext: Xonext')}
${sheet('xo-b', '2031-05-02 11:10', 'light: sun\nsky: hazy\nfacing: side\ntime: 60 s\nresult: right\nside: emulsion to hole\nscan: xo.jpg')}
${sheet('xo-c', '2031-05-02 11:20', 'light: open shade\nstrip: 6 x 1/2 stop from 10 s\nresult: right at step 3')}
${sheet('xo-d', '2031-05-02 11:30', 'light: 1/60 s at f/16, ISO 100\nreceptor: dome\nfilter: 1 stop\npreflash: {lamp: Xobulb, distance: 1 m, time: 2 s}\nbracket: 5 x 2/3 stop\nsubject: 3 m\nresult: leak')}
${sheet('xo-e', '2031-05-02 11:40', 'light: EV 10')}
${sheet('xo-f', '2031-05-02 11:50', 'light: EV 11\ntime: 2 min\nresult: needs -1 stop\nscan: xo-lost.jpg')}

\`\`\`print
id: xo-print
title: Xoprint
of: xo-b
when: 2031-05-03 20:00
paper: xo-paper
lamp: Xobulb
distance: 1 m
time: 4 s
through: face to face
result: black
\`\`\`

\`\`\`batch
id: xo-first
title: Xofirst
of: xo-tea
made: 2031-05-02 18:00
volume: 1 l
by: XoX
bottle: Xobottle
swaps:
  Xodust: 60 g
measured:
  pH: 10.2
  with: strip
  diluted: 1+9
  at: 22 °C
discarded: 2031-05-02 20:00
\`\`\`

\`\`\`batch
id: xo-later
title: Xolater
of: xo-hypo
made: 2031-05-02 18:00
volume: 1 l
\`\`\`

\`\`\`session
id: xo-session
title: Xosession
when: 2031-05-02 19:00
process: xo-line
baths:
  xo-tea: xo-first
  xo-hypo: xo-later
temperature: 22 °C
safelight: xo-lamp
sheets: [xo-a, xo-b, xo-e]
ready: 2031-05-02 20:00
people: 2
each: 1
spare: 10 %
events:
  - at: 2031-05-02 19:05
    sheet: xo-a
    step: xo-tea
    appeared: 45 s
    note: Xoevent
  - at: 10 min
    sheet: xo-b
times:
  xo-tea: 5 min
\`\`\`
`;

const settings = (language, decimal) => `format: 1
title: Xo
by: Xo
language: ${language}
decimal: ${decimal}
zone: Europe/Berlin
place:
  name: Xoplace
  latitude: ${decimal === 'comma' ? '52,5' : '52.5'}
  longitude: ${decimal === 'comma' ? '13,4' : '13.4'}
scale: 1 g
trays:
  - name: Xotray
    inside: 160×210 mm
shelf:
  - material: washing soda, anhydrous
    left: 500 g
press:
  site: {}
`;

/** The notebook's files in a language; with a decimal comma where that is asked for. `hypo` is what the fixer holds. */
export function everything(language, decimal, hypo = '200 g') {
  const marked = (text) => (decimal === 'comma' ? text.replace(/(\d)\.(\d)/g, '$1,$2') : text);
  return {
    'trayside.yaml': settings(language, decimal),
    'index.md': marked(BATHS.replace('200 g', hypo)),
    'tools.md': marked(TOOLS),
    'log/day.md': marked(LOG),
    'log/again.md': '---\ntitle: Xoagain\ndate: 2031-05-09\n---\n\n# Xoagain\n\nXo.\n',
  };
}
