"""Drives a headless Chromium over its debugging pipe (the DevTools protocol: JSON texts, each
ended by a zero byte, on file descriptors 3 and 4). Only what a test of one local page needs;
no package beyond Python itself."""

import base64
import json
import os
import select
import shutil
import subprocess
import tempfile
import time


class Chromium:
    def __init__(self, program="chromium"):
        self.profile = tempfile.mkdtemp(prefix="throughbend-chromium-")
        to_browser, self.to = os.pipe()
        self.back, from_browser = os.pipe()
        low = 10  # out of the way of the descriptors 3 and 4 that the browser expects
        import fcntl

        inner = [fcntl.fcntl(fd, fcntl.F_DUPFD, low) for fd in (to_browser, from_browser)]
        os.close(to_browser)
        os.close(from_browser)

        def place():
            os.dup2(inner[0], 3)
            os.dup2(inner[1], 4)

        self.process = subprocess.Popen(
            [program, "--headless=new", "--no-sandbox", "--disable-gpu",
             "--enable-unsafe-swiftshader", "--no-first-run",
             "--disable-dev-shm-usage", "--disable-extensions", "--disable-background-networking",
             "--hide-scrollbars", "--force-device-scale-factor=1", "--remote-debugging-pipe",
             "--user-data-dir=" + self.profile, "about:blank"],
            preexec_fn=place, close_fds=False, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        for fd in inner:
            os.close(fd)
        self.buffer = b""
        self.number = 0
        self.events = []
        self.session = None
        target = self.call("Target.createTarget", url="about:blank")["targetId"]
        self.session = self.call("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self.call(domain + ".enable")

    def close(self):
        self.process.terminate()
        try:
            self.process.wait(20)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()
        os.close(self.to)
        os.close(self.back)
        shutil.rmtree(self.profile, ignore_errors=True)

    def _message(self, until):
        while b"\0" not in self.buffer:
            left = until - time.monotonic()
            if left <= 0 or not select.select([self.back], [], [], left)[0]:
                raise TimeoutError("the browser does not answer")
            part = os.read(self.back, 1 << 20)
            if not part:
                raise RuntimeError("the browser has ended")
            self.buffer += part
        text, self.buffer = self.buffer.split(b"\0", 1)
        return json.loads(text)

    def call(self, method, seconds=60, **params):
        self.number += 1
        message = {"id": self.number, "method": method, "params": params}
        if self.session:
            message["sessionId"] = self.session
        os.write(self.to, json.dumps(message).encode() + b"\0")
        until = time.monotonic() + seconds
        while True:
            answer = self._message(until)
            if answer.get("id") == self.number:
                if "error" in answer:
                    raise RuntimeError(method + ": " + answer["error"]["message"])
                return answer["result"]
            if "method" in answer:
                self.events.append(answer)

    def wait_for(self, method, seconds=60):
        until = time.monotonic() + seconds
        while True:
            for event in self.events:
                if event["method"] == method:
                    return event
            message = self._message(until)
            if "method" in message:
                self.events.append(message)

    def size(self, width, height=900):
        self.call("Emulation.setDeviceMetricsOverride", width=width, height=height,
                  deviceScaleFactor=1, mobile=width < 600)

    def open(self, path, fragment=""):
        """Opens a local file and waits until it is loaded and drawn. Events start anew."""
        self.call("Page.navigate", url="about:blank")
        time.sleep(0.1)
        self.evaluate("1")
        self.events = []
        self.call("Page.navigate", url="file://" + os.path.abspath(path) + fragment)
        self.wait_for("Page.loadEventFired")
        self.frames()

    def evaluate(self, expression):
        result = self.call("Runtime.evaluate", expression=expression, returnByValue=True,
                           awaitPromise=True)
        if "exceptionDetails" in result:
            raise RuntimeError(expression + ": " + json.dumps(result["exceptionDetails"]))
        return result["result"].get("value")

    def frames(self):
        self.evaluate("new Promise(r => requestAnimationFrame(() => requestAnimationFrame(r)))")

    def key(self, key, code=None, text=None):
        names = {"key": key, "code": code or key}
        if text:
            names["text"] = text
        for kind in ("keyDown", "keyUp"):
            self.call("Input.dispatchKeyEvent", type=kind, **names)
        self.frames()

    def click(self, selector):
        x, y = self.evaluate(
            "(() => { const e = document.querySelector(%s); e.scrollIntoView({block: 'center'});"
            " const r = e.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; })()"
            % json.dumps(selector))
        for kind in ("mousePressed", "mouseReleased"):
            self.call("Input.dispatchMouseEvent", type=kind, x=x, y=y, button="left", clickCount=1)
        self.frames()

    def screenshot(self, file):
        """The whole page."""
        image = self.call("Page.captureScreenshot", captureBeyondViewport=True, format="png",
                          clip={**self.whole_page(), "scale": 1})
        with open(file, "wb") as out:
            out.write(base64.b64decode(image["data"]))

    def whole_page(self):
        size = self.call("Page.getLayoutMetrics")["cssContentSize"]
        return {"x": 0, "y": 0, "width": size["width"], "height": size["height"]}

    def pdf(self, file, width, height):
        """Prints on paper of this size [in]."""
        printed = self.call("Page.printToPDF", paperWidth=width, paperHeight=height,
                            printBackground=True, preferCSSPageSize=False, marginTop=0.5,
                            marginBottom=0.5, marginLeft=0.5, marginRight=0.5)
        with open(file, "wb") as out:
            out.write(base64.b64decode(printed["data"]))

    def complaints(self):
        """Console messages, exceptions and log entries since the page was opened. Without a
        graphics card the driver remarks on its own speed: that is not the page's."""
        found = []
        for event in self.events:
            if event["method"] == "Runtime.consoleAPICalled":
                found.append("console: " + json.dumps(event["params"]["args"])[:300])
            elif event["method"] == "Runtime.exceptionThrown":
                found.append("exception: " + json.dumps(event["params"]["exceptionDetails"])[:300])
            elif event["method"] == "Log.entryAdded" and "GL Driver Message (OpenGL, Performance" not in event["params"]["entry"]["text"]:
                found.append("log: " + event["params"]["entry"]["text"][:300])
        return found

    def requests(self):
        """Addresses asked for since the page was opened, without data held by the page."""
        asked = [e["params"]["request"]["url"] for e in self.events
                 if e["method"] == "Network.requestWillBeSent"]
        return [url for url in asked if not url.startswith("data:")]
