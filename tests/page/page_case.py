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
HOSTILE = "</script><script>document.title='broken'</script> \\\"q\\\" 'a' \\u05E9\\u05DC\\u05D5\\u05DD & é"


@functools.cache
def folder():
    """Goes with the program's end."""
    made = tempfile.TemporaryDirectory(prefix="fallwright-page-")
    atexit.register(made.cleanup)
    atexit.register(reports.keep_below, made.name)  # before that: the last one registered goes first
    return pathlib.Path(made.name)


@functools.cache
def built():
    """What the build of three demo rooms and one of a hostile name told."""
    hostile = folder() / "hostile & 'name'.toml"
    hostile.write_text(re.sub(r'name = ".*?"', lambda _: f'name = "{HOSTILE}"',
                              (PROJECT / "params/tannery-lane-2a.toml").read_text(), count=1))
    jobs = [PROJECT / f"params/{name}.toml" for name in ("tannery-lane-2b", "ferry-steps-3", "tannery-lane-5c")]
    done = subprocess.run([FALLWRIGHT, "build", *jobs, hostile, "--together", "--out", folder()], capture_output=True, text=True)
    assert done.returncode == 1, done.stderr
    return done.stdout


@functools.cache
def browser():
    options = Options()
    for flag in ("--headless=new", "--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader",
                 "--hide-scrollbars", "--disable-background-networking", "--disable-component-update"):
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

    def open(self, room, wide=700, high=600):
        """The page of a room; ready once its view stands."""
        self.open_file(self.page(room), wide, high)
        if room != "together":
            self.until("return document.documentElement.dataset.view")

    def open_file(self, file, wide=700, high=600):
        self.size(wide, high)
        self.media("light")
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
        """No word in the console, no request, nothing that the policy stopped."""
        self.assertEqual([line["message"] for line in self.browser.get_log("browser")], [])
        self.assertEqual(self.js("return performance.getEntriesByType('resource')"
                                 ".filter(e => !/^(data|blob):/.test(e.name)).map(e => e.name)"), [])

    def reads_well(self, what):
        """WCAG 2.1, 1.4.10 (reflow, here to 360 px) and 1.4.3 (contrast), by day and by night."""
        self.assertLessEqual(self.js("return document.documentElement.scrollWidth"), 360, what)
        for scheme in ("light", "dark"):
            self.media(scheme)
            self.assertEqual(self.js(LOW_CONTRAST), [], f"{what} {scheme}")


LOW_CONTRAST = """
const parse = (c) => (c.match(/[\\d.]+/g) ?? [0, 0, 0, 0]).map(Number);
const share = (v) => (v /= 255) <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
const light = ([r, g, b]) => 0.2126 * share(r) + 0.7152 * share(g) + 0.0722 * share(b);
const behind = (node) => {
  for (let n = node; n; n = n.parentElement) {
    const c = parse(getComputedStyle(n).backgroundColor);
    if (c.length < 4 || c[3] > 0) return c;
  }
  return [255, 255, 255];
};
const low = new Set();
for (const node of document.querySelectorAll('h1,h2,h3,h4,p,a,li,dt,dd,td,th,small,caption,summary,label,button,.badge,output')) {
  if (!node.textContent.trim() || !node.getClientRects().length) continue;
  const [a, b] = [light(parse(getComputedStyle(node).color)), light(behind(node))].sort((x, y) => y - x);
  if ((a + 0.05) / (b + 0.05) < 4.5) low.add(node.tagName + '.' + node.className + ' ' + getComputedStyle(node).color);
}
return [...low];
"""
