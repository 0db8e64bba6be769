// Shows the planking in space on a canvas, turned by hand, wheel and keys. The app hands over the geometry; this shows it.
const PLANKS = `#version 300 es
uniform mat4 view; uniform mat3 turn; in vec3 at; in vec3 outward; out float light;
void main() { gl_Position = view * vec4(at, 1.0); vec3 n = normalize(turn * outward); light = 0.45 + 0.55 * abs(dot(n, normalize(vec3(0.35, 0.5, 0.8)))); }`;
const SHADE = `#version 300 es
precision mediump float; uniform vec3 ink; in float light; out vec4 shown;
void main() { shown = vec4(ink * light, 1.0); }`;
const LINES = `#version 300 es
uniform mat4 view; uniform float size; uniform float nearer; in vec3 at;
void main() { gl_Position = view * vec4(at, 1.0); gl_Position.z -= nearer * gl_Position.w; gl_PointSize = size; }`;
const FLAT = `#version 300 es
precision mediump float; uniform vec3 ink; uniform bool round; uniform bool open; out vec4 shown;
void main() {
  if (round) { float r = length(gl_PointCoord - 0.5); if (r > 0.5 || (open && r < 0.28)) discard; }
  shown = vec4(ink, 1.0);
}`;

const rgb = (words) => {
  const hex = words.trim().replace("#", "");
  return [0, 2, 4].map((i) => parseInt(hex.slice(i, i + 2), 16) / 255);
};

export function show(canvas, { triangles, outward, seams, frames, against, others, reach }, pick) {
  const gl = canvas.getContext("webgl2", { antialias: true });
  if (!gl) return null;
  const built = (vertex, fragment) => {
    const program = gl.createProgram();
    for (const [kind, text] of [[gl.VERTEX_SHADER, vertex], [gl.FRAGMENT_SHADER, fragment]]) {
      const shader = gl.createShader(kind);
      gl.shaderSource(shader, text);
      gl.compileShader(shader);
      gl.attachShader(program, shader);
    }
    gl.linkProgram(program);
    return program;
  };
  const planks = built(PLANKS, SHADE);
  const lines = built(LINES, FLAT);
  const held = (numbers) => {
    const buffer = gl.createBuffer();
    gl.bindBuffer(gl.ARRAY_BUFFER, buffer);
    gl.bufferData(gl.ARRAY_BUFFER, numbers, gl.STATIC_DRAW);
    return { buffer, count: numbers.length / 3 };
  };
  const kept = { triangles: held(triangles), outward: held(outward), seams: held(seams), frames: held(frames), against: held(against), others: held(others) };
  const feed = (program, name, { buffer }) => {
    const place = gl.getAttribLocation(program, name);
    gl.bindBuffer(gl.ARRAY_BUFFER, buffer);
    gl.enableVertexAttribArray(place);
    gl.vertexAttribPointer(place, 3, gl.FLOAT, false, 0, 0);
  };
  const lie = { about: 0.7, over: 0.28, far: 1.9 * reach };
  let asked = 0;
  let matrix = null;

  // The boat's axes are ahead, port, up; the eye looks along its own third.
  const draw = () => {
    asked = 0;
    const dots = Math.min(window.devicePixelRatio || 1, 2);
    const [w, h] = [Math.max(1, Math.round(canvas.clientWidth * dots)), Math.max(1, Math.round(canvas.clientHeight * dots))];
    if (canvas.width !== w || canvas.height !== h) [canvas.width, canvas.height] = [w, h];
    const [ca, sa, co, so] = [Math.cos(lie.about), Math.sin(lie.about), Math.cos(lie.over), Math.sin(lie.over)];
    const right = [-sa, ca, 0];
    const up = [-ca * so, -sa * so, co];
    const back = [ca * co, sa * co, so];
    const f = 2.2 * Math.min(1, w / h / 1.35);
    const [near, far] = [0.05 * reach, 12 * reach];
    const [a, b] = [-(far + near) / (far - near), (-2 * far * near) / (far - near)];
    const column = (i) => [(right[i] * f * h) / w, up[i] * f, a * back[i], -back[i]];
    matrix = new Float32Array([...column(0), ...column(1), ...column(2), 0, 0, -a * lie.far + b, lie.far]);
    const turn = new Float32Array([0, 1, 2].flatMap((i) => [right[i], up[i], back[i]]));
    const style = getComputedStyle(canvas);
    const ink = (name) => rgb(style.getPropertyValue(name));
    gl.viewport(0, 0, w, h);
    gl.enable(gl.DEPTH_TEST);
    gl.clearColor(...ink("--sunk"), 1);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    gl.useProgram(planks);
    gl.uniformMatrix4fv(gl.getUniformLocation(planks, "view"), false, matrix);
    gl.uniformMatrix3fv(gl.getUniformLocation(planks, "turn"), false, turn);
    gl.uniform3fv(gl.getUniformLocation(planks, "ink"), ink("--plank"));
    feed(planks, "at", kept.triangles);
    feed(planks, "outward", kept.outward);
    gl.drawArrays(gl.TRIANGLES, 0, kept.triangles.count);
    gl.disableVertexAttribArray(gl.getAttribLocation(planks, "outward"));
    gl.useProgram(lines);
    const set = (name) => gl.getUniformLocation(lines, name);
    gl.uniformMatrix4fv(set("view"), false, matrix);
    const put = (of, kind, colour, nearer, size, open) => {
      gl.uniform3fv(set("ink"), ink(colour));
      gl.uniform1f(set("nearer"), nearer);
      gl.uniform1f(set("size"), size * dots);
      gl.uniform1i(set("round"), kind === gl.POINTS);
      gl.uniform1i(set("open"), open);
      feed(lines, "at", of);
      gl.drawArrays(kind, 0, of.count);
    };
    put(kept.seams, gl.LINES, "--ink", 0.0006, 1, false);
    put(kept.frames, gl.LINES, "--faint", 0.0004, 1, false);
    put(kept.others, gl.POINTS, "--ink", 0.003, 9, true);
    put(kept.against, gl.POINTS, "--accent", 0.003, 11, false);
  };
  const again = () => { asked ||= requestAnimationFrame(draw); };
  const turned = (about, over) => {
    lie.about += about;
    lie.over = Math.max(-1.5, Math.min(1.5, lie.over + over));
    again();
  };
  const nearer = (by) => {
    lie.far = Math.max(0.6 * reach, Math.min(8 * reach, lie.far * by));
    again();
  };
  const fingers = new Map();
  let strayed = 0;
  const on = {
    pointerdown: (e) => { fingers.set(e.pointerId, [e.clientX, e.clientY]); strayed = 0; canvas.setPointerCapture(e.pointerId); },
    pointermove: (e) => {
      const was = fingers.get(e.pointerId);
      if (!was) return;
      const [dx, dy] = [e.clientX - was[0], e.clientY - was[1]];
      strayed += Math.hypot(dx, dy);
      const other = [...fingers].find(([id]) => id !== e.pointerId)?.[1];
      if (other) nearer(Math.max(1, Math.hypot(was[0] - other[0], was[1] - other[1])) / Math.max(1, Math.hypot(e.clientX - other[0], e.clientY - other[1])));
      else turned(-dx * 0.008, dy * 0.008);
      fingers.set(e.pointerId, [e.clientX, e.clientY]);
    },
    pointerup: (e) => { fingers.delete(e.pointerId); if (strayed < 8) pick(nearest(e)); },
    pointercancel: (e) => fingers.delete(e.pointerId),
    wheel: (e) => { e.preventDefault(); nearer(Math.exp(e.deltaY * 0.001)); },
    keydown: (e) => {
      const step = { ArrowLeft: [0.12, 0], ArrowRight: [-0.12, 0], ArrowUp: [0, -0.12], ArrowDown: [0, 0.12] }[e.key];
      if (step) turned(...step);
      else if (e.key === "+" || e.key === "=") nearer(0.85);
      else if (e.key === "-") nearer(1 / 0.85);
      else return;
      e.preventDefault();
    },
  };
  // The mark nearest to a tap, as its number among those against her, then the others; none when all are far.
  const nearest = (e) => {
    const box = canvas.getBoundingClientRect();
    const [x, y] = [((e.clientX - box.left) / box.width) * 2 - 1, 1 - ((e.clientY - box.top) / box.height) * 2];
    let best = [18 / box.width * 2, -1, Infinity];
    [against, others].forEach((all, k) => {
      for (let i = 0; i < all.length; i += 3) {
        const c = [0, 1, 3].map((row) => matrix[row] * all[i] + matrix[4 + row] * all[i + 1] + matrix[8 + row] * all[i + 2] + matrix[12 + row]);
        const off = Math.hypot(c[0] / c[2] - x, ((c[1] / c[2] - y) * box.height) / box.width);
        if (off < best[0] - 0.004 || (off < best[0] + 0.004 && off < 0.1 && c[2] < best[2] && best[1] >= 0)) best = [Math.min(off, best[0]), i / 3 + (k ? against.length / 3 : 0), c[2]];
      }
    });
    return best[1];
  };
  for (const [name, what] of Object.entries(on)) canvas.addEventListener(name, what, { passive: false });
  const watch = new ResizeObserver(again);
  watch.observe(canvas);
  again();
  return () => { watch.disconnect(); cancelAnimationFrame(asked); gl.getExtension("WEBGL_lose_context")?.loseContext(); };
}
