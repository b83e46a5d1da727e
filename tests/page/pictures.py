"""Renews the pictures of pages in docs/pictures, each as a reader of the docs would have it on a screen or a phone:
FALLWRIGHT=.../fallwright CHROMEDRIVER=.../chromedriver python3 pictures.py [FOLDER]"""
import base64
import pathlib
import subprocess
import sys

from page_case import FALLWRIGHT, PROJECT, PageCase, folder

FIRST, SURVEYED, FAILING = "tannery-lane-2a", "ferry-steps-3", "tannery-lane-2b"


class Pictures(PageCase):
    """Opens pages as tests do, and keeps what is seen instead of asking what it is."""

    def __init__(self, to):
        super().__init__()
        self.to = pathlib.Path(to)

    def open_room(self, room, wide, high, scheme="light"):
        self.browser.get("about:blank")
        self.open_file(folder() / room / "report.html", wide, high)
        self.media(scheme)
        self.until("return document.documentElement.dataset.view")
        self.until("const c = document.querySelector('#stage canvas'); return c.width === c.parentNode.clientWidth")

    def keep(self, name, at=None, above=10):
        """From the head of a section on."""
        if at:
            self.js("document.documentElement.style.scrollBehavior = 'auto';"
                    "scrollTo(0, document.querySelector(arguments[0]).getBoundingClientRect().top + scrollY"
                    " - document.querySelector('nav').offsetHeight - arguments[1])", at, above)
        self.until("return new Promise((then) => requestAnimationFrame(() => requestAnimationFrame(() => then(true))))")
        shot = self.browser.execute_cdp_cmd("Page.captureScreenshot", {"format": "png"})
        (self.to / f"{name}.png").write_bytes(base64.b64decode(shot["data"]))

    def all(self):
        jobs = [PROJECT / f"params/{job}.toml" for job in (FIRST, SURVEYED, FAILING)]
        subprocess.run([FALLWRIGHT, "build", "-q", *jobs, "--only", "page", "--out", folder()], capture_output=True)
        self.open_room(FIRST, 1200, 770)
        self.type("lift", 45)
        self.keep("page-room", "#room-head")
        self.open_room(FAILING, 1200, 800)
        self.keep("page-verdict")
        self.size(1200, 770)
        self.js("document.getElementById('map-falls').click()")
        self.keep("page-view", "#room-head")
        self.open_room(FIRST, 1200, 900)
        for place, words in (("back-left", "1/8"), ("back-right", "0"), ("front-left", "1/16"), ("front-right", "1/16")):
            self.type(f"at-{place}", words)
        self.keep("page-card", "#card-head")
        self.open_room(SURVEYED, 390, 800, "dark")
        self.js("document.getElementById('map-falls').click()")
        self.keep("page-phone", "#room-head")
        form = folder() / "form.html"
        subprocess.run([FALLWRIGHT, "form", "-q", "--force", form], check=True)
        self.browser.get("about:blank")
        self.open_file(form, 1200, 860)
        self.keep("form")


if __name__ == "__main__":
    Pictures(sys.argv[1] if len(sys.argv) > 1 else PROJECT / "docs/pictures").all()
