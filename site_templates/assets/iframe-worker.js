/* Pages opened from disk may not start a Worker. Search runs in a hidden frame instead:
   same messages in and out, scripts loaded one after the other. */
"use strict";
if (location.protocol === "file:") {
  window.IFrameWorker = class extends EventTarget {
    constructor(url) {
      super();
      const frame = document.createElement("iframe");
      frame.hidden = true;
      frame.title = "Search";
      document.body.append(frame);
      this.inner = frame.contentWindow;
      this.inner.postMessage = (data) =>
        this.dispatchEvent(new MessageEvent("message", { data }));
      this.inner.importScripts = (...urls) =>
        urls.reduce((before, next) => before.then(() => this.load(next)), Promise.resolve());
      this.ready = this.load(new URL(url, location.href).href);
    }
    load(url) {
      return new Promise((resolve, reject) => {
        const script = this.inner.document.createElement("script");
        Object.assign(script, { src: url, onload: resolve, onerror: reject });
        this.inner.document.body.append(script);
      });
    }
    postMessage(data) {
      this.ready.then(() => this.inner.dispatchEvent(new this.inner.MessageEvent("message", { data })));
    }
    terminate() { this.inner.frameElement.remove(); }
  };
  window.Worker = window.IFrameWorker;
}
