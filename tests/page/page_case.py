"""What all tests of pages share: one build of the demo jobs, one start of Debian's chromium without a window, which draws in
three dimensions by software."""
import atexit
import functools
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import time
import unittest

from selenium import webdriver
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service

PROJECT = pathlib.Path(__file__).resolve().parents[2]
sys.path.append(str(PROJECT / "tests/support"))
import reports  # noqa: E402
FALLWRIGHT = os.environ["FALLWRIGHT"]
ROOMS = {"designed": "tannery-lane-2b", "site-built": "recorded", "hostile": "hostile & 'name'"}
HOSTILE = "</script><script>document.title='broken'</script> \\\"q\\\" 'a' \\u05E9\\u05DC\\u05D5\\u05DD & é"


@functools.cache
def folder():
    """Goes with the program's end."""
    made = tempfile.TemporaryDirectory(prefix="fallwright-page-")
    atexit.register(made.cleanup)
    atexit.register(reports.keep_below, made.name)  # before that: the last one registered goes first
    return pathlib.Path(made.name)


RECORD = """
[[as_built.fall]]
surface = "base-floor"
facet = "left"
fall = "1/16 in/ft"

[[as_built.flood]]
at = "2026-12-01 08:30"
level = "4 in"

[[as_built.flood]]
at = "2026-12-02 08:30"
level = "3-3/4 in"
"""


def job_of(room):
    """The job file of a room that is built here."""
    return folder() / f"{room}.toml" if room in (ROOMS["hostile"], ROOMS["site-built"]) else PROJECT / f"params/{room}.toml"


@functools.cache
def built():
    """What the build of three rooms told: one as designed, one built on site whose record fails, and a metric one with a base
    that was bought and a hostile name."""
    demo = lambda name: (PROJECT / f"params/{name}.toml").read_text()
    hostile = re.sub(r'name = ".*?"', lambda _: f'name = "{HOSTILE}"', demo("chandlers-row-7"), count=1)
    job_of(ROOMS["hostile"]).write_text(hostile.replace('unit = "in"', 'unit = "mm"'))
    job_of(ROOMS["site-built"]).write_text(demo("coopers-yard-4") + RECORD)
    done = subprocess.run([FALLWRIGHT, "build", *map(job_of, ROOMS.values()), "--together", "--out", folder()],
                          capture_output=True, text=True)
    assert done.returncode == 1, done.stderr
    return done.stdout


@functools.cache
def browser():
    options = Options()
    for flag in ("--headless=new", "--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader",
                 "--disable-gpu-compositing", "--hide-scrollbars", "--disable-background-networking", "--disable-component-update"):
        options.add_argument(flag)
    options.add_experimental_option("prefs", {"download.default_directory": str(folder())})
    options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
    started = webdriver.Chrome(service=Service(os.environ["CHROMEDRIVER"]), options=options)
    atexit.register(started.quit)
    return started


def data_of(page, name):
    """What the program wrote into a page for its scripts."""
    text = re.search(rf'<script type="application/json" id="{name}">(.*?)</script>', page.read_text(), re.S)[1]
    return json.loads(text)


class PageCase(unittest.TestCase):
    """A test that opens pages and looks into them."""

    @property
    def browser(self):
        return browser()

    @property
    def out(self):
        built()
        return folder()

    def js(self, script, *arguments):
        return self.browser.execute_script(script, *arguments)

    def size(self, wide, high):
        self.browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride",
                                     {"width": wide, "height": high, "deviceScaleFactor": 1, "mobile": wide < 600})

    def media(self, scheme):
        self.browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": [
            {"name": "prefers-color-scheme", "value": scheme}, {"name": "prefers-reduced-motion", "value": "reduce"}]})

    def page(self, room):
        return self.out / room / ("index.html" if room == "together" else "report.html")

    def open(self, room, wide=540, high=330):
        """The page of a room, as it is where it is open already; ready once its view stands and has its size. Small, since
        three dimensions are drawn by software."""
        self.open_file(self.page(room), wide, high)
        if room != "together":
            self.until("return document.documentElement.dataset.view")
            self.until("const c = document.querySelector('#stage canvas'); return c.width === c.parentNode.clientWidth")

    def open_file(self, file, wide=540, high=330):
        self.size(wide, high)
        self.media("light")
        if self.browser.current_url != file.as_uri():
            self.browser.get(file.as_uri())

    def until(self, script, seconds=30):
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            if found := self.js(script):
                return found
            time.sleep(0.05)
        self.fail(f"never came true: {script}")

    def type(self, field, words):
        self.js("const e = document.getElementById(arguments[0]); e.value = arguments[1];"
                "e.dispatchEvent(new Event(e.matches('select') ? 'change' : 'input', {bubbles: true}));", field, words)

    def nothing_wrong(self):
        """No word in the console, no request, nothing that the policy stopped. What the browser says of its own drawing by
        software, read back to put a page together, is no word of the page's."""
        words = [line["message"] for line in self.browser.get_log("browser")]
        self.assertEqual([word for word in words if "GPU stall due to ReadPixels" not in word], [])
        self.assertEqual(self.js("return performance.getEntriesByType('resource')"
                                 ".filter(e => !/^(data|blob):/.test(e.name)).map(e => e.name)"), [])

    def reads_well(self, what):
        """WCAG 2.1, 1.4.10 (reflow, here to 360 px) and 1.4.3 (contrast), by day and by night, with all that is folded open."""
        self.js("for (const part of document.querySelectorAll('details')) part.open = true")
        self.assertLessEqual(self.js("return document.documentElement.scrollWidth"), 360, what)
        for scheme in ("light", "dark"):
            self.media(scheme)
            self.assertEqual(self.js(LOW_CONTRAST), [], f"{what} {scheme}")


# Every text that is drawn against what lies behind it: colours with their share of transparency, of a gradient the worse end.
# WCAG 2.1, 1.4.3: 4.5 to 1, and 3 to 1 for letters of 24 px, or of 18.66 px where they are bold.
LOW_CONTRAST = """
const parse = (c) => { const n = (c.match(/[\\d.]+/g) ?? [0, 0, 0, 0]).map(Number); return [n[0], n[1], n[2], n[3] ?? 1]; };
const share = (v) => (v /= 255) <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
const light = ([r, g, b]) => 0.2126 * share(r) + 0.7152 * share(g) + 0.0722 * share(b);
const over = (c, under) => [0, 1, 2].map((i) => c[3] * c[i] + (1 - c[3]) * under[i]);
const behind = (node) => {
  if (!node) return [matchMedia('(prefers-color-scheme: dark)').matches ? [18, 18, 18] : [255, 255, 255]];
  const style = getComputedStyle(node), stops = style.backgroundImage.match(/rgba?\\([^)]*\\)/g);
  if (stops) return stops.map(parse);
  const own = parse(style.backgroundColor);
  return own[3] === 1 ? [own] : behind(node.parentElement).map((under) => over(own, under));
};
const faint = (node) => node ? Number(getComputedStyle(node).opacity) * faint(node.parentElement) : 1;
const low = new Set(), texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
for (let text; (text = texts.nextNode());) {
  const node = text.parentElement, range = document.createRange();
  range.selectNode(text);
  if (!text.data.trim() || !range.getClientRects().length || node.closest('script, style, option')) continue;
  const style = getComputedStyle(node), colour = parse(node.closest('svg') ? style.fill : style.color);
  colour[3] *= faint(node);
  const size = parseFloat(style.fontSize), large = size >= 24 || (size >= 18.66 && style.fontWeight >= 600);
  for (const under of behind(node)) {
    const [a, b] = [light(over(colour, under)), light(under)].sort((x, y) => y - x), ratio = (a + 0.05) / (b + 0.05);
    if (ratio < (large ? 3 : 4.5)) low.add(`${node.tagName}.${node.getAttribute('class') ?? ''} in ${node.parentElement.tagName}: ${ratio.toFixed(2)}`);
  }
}
return [...low];
"""
