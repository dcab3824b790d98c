// Runs inside the preview: shows what is sent, marks the place of the cursor, tells where was clicked.

(() => {
  const vscode = acquireVsCodeApi();
  const main = document.querySelector("main");
  let line = -1;

  /** The piece that holds the line, else the last one above it. */
  function pieceAt(line) {
    let above;
    for (const piece of main.querySelectorAll("[data-from]")) {
      if (Number(piece.dataset.from) > line) continue;
      if (Number(piece.dataset.to) > line) return piece;
      if (!above || Number(piece.dataset.from) >= Number(above.dataset.from)) above = piece;
    }
    return above;
  }

  function mark() {
    for (const marked of main.querySelectorAll(".here")) marked.classList.remove("here");
    const piece = line < 0 ? undefined : pieceAt(line);
    if (!piece) return;
    piece.classList.add("here");
    const { top, bottom } = piece.getBoundingClientRect();
    if (top < 0 || bottom > window.innerHeight) piece.scrollIntoView({ block: "center" });
  }

  window.addEventListener("message", ({ data }) => {
    if (typeof data.html === "string") main.innerHTML = data.html;
    if (typeof data.line === "number") line = data.line;
    mark();
  });

  main.addEventListener("click", ({ target }) => {
    const piece = target.closest("[data-from]");
    if (piece && window.getSelection().isCollapsed) vscode.postMessage({ line: Number(piece.dataset.from) });
  });

  vscode.postMessage({ ready: true });
})();
