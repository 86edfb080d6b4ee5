// Starts the page of one file: unpacks its programs and gives each an address within the page. What a program refers to stands
// before it; a reference is written ¤NAME¤. `xtask` packs them (`single_file.rs`).
//
// Scripts get addresses in the browser's memory (blob:), which only a script that runs can make. Workers of a page that was opened
// from a disk may not read those, so the worker and all wasm are addresses that hold their contents (data:).
(async () => {
  const addresses = {};
  const held = blob => new Promise((done, failed) => {
    const reader = new FileReader();
    reader.onload = () => done(reader.result);
    reader.onerror = () => failed(reader.error);
    reader.readAsDataURL(blob);
  });
  for (const block of document.querySelectorAll("script[data-packed]")) {
    const { packed: name, kind, form } = block.dataset;
    const bytes = Uint8Array.from(atob(block.textContent), letter => letter.charCodeAt(0));
    const unpacked = new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip")));
    const content = kind === "text/javascript"
      ? (await unpacked.text()).replace(/¤([^¤]+)¤/g, (_, other) => addresses[other])
      : await unpacked.arrayBuffer();
    const blob = new Blob([content], { type: kind });
    addresses[name] = form === "data" ? await held(blob) : URL.createObjectURL(blob);
    block.remove();
  }
  for (const program of Object.keys(programs)) { programs[program] = addresses[programs[program]]; }
  await import(addresses.start);
})();
