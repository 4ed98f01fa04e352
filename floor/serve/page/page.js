"use strict";

// Runs before the terminal's own start, which waits for the whole page.
(() => {
  const terminal = document.getElementById("terminal");

  // What this tab calls itself: it keeps its place when the page is loaded again.
  const TAB = "bunchbook-tab";
  let tab = sessionStorage.getItem(TAB);
  if (!tab) {
    const drawn = crypto.getRandomValues(new Uint8Array(12));
    tab = Array.from(drawn, (byte) => byte.toString(16).padStart(2, "0")).join("");
    sessionStorage.setItem(TAB, tab);
  }
  const socket = new URL(`/ws/${tab}`, location.href);
  socket.protocol = location.protocol === "https:" ? "wss:" : "ws:";
  terminal.dataset.sessionWebsocketUrl = socket.href;

  // Keys belong to the floor: F5 and F10 are its pages.
  function toTheFloor() {
    if (document.body.classList.contains("-closed")) return;
    const keys = terminal.querySelector(".xterm-helper-textarea");
    if (keys && document.activeElement !== keys) keys.focus();
  }
  window.addEventListener("focus", toTheFloor);
  window.addEventListener("mouseup", toTheFloor);

  // The first sentence says why the floor ended; what follows from it says less.
  let told = false;
  function heard(event) {
    if (typeof event.data !== "string") return;
    const [kind, sentence] = JSON.parse(event.data);
    if (kind !== "said" || told) return;
    told = true;
    document.getElementById("said").textContent = sentence;
  }

  const Plain = window.WebSocket;
  window.WebSocket = class extends Plain {
    constructor(...words) {
      super(...words);
      this.addEventListener("open", toTheFloor);
      this.addEventListener("message", heard);
    }
  };

  // Not focused by itself: a scale's Enter must not open a floor in the middle of a reading.
  document.getElementById("again").addEventListener("click", () => location.reload());
})();
