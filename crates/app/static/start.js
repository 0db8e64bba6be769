// Starts the workbench, and says so in words when it cannot.
import start from "/app/__BUILD__/app.js";

start({ module_or_path: "/app/__BUILD__/app_bg.wasm" }).catch((fault) => {
  const told = document.getElementById("opening");
  if (told) {
    told.textContent =
      "The workbench could not be started in this browser. What is recorded can be read at /plain. (" + fault + ")";
  }
});

// The view in space is fetched only when it is opened.
globalThis.openSolid = (canvas, parts, pick) => import("/app/__BUILD__/solid.js").then((solid) => solid.show(canvas, parts, pick));

// So are packages, read and made beside the page.
globalThis.openCarrier = () => new Worker("/app/__BUILD__/carry.js", { type: "module" });
