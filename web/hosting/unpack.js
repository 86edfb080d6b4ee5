// Starts the page of one file: unpacks its programs and gives each an address within the browser's memory. What a program refers
// to stands before it; a reference is written ¤NAME¤. `xtask` packs them (`single_file.rs`).
(async () => {
  const addresses = {};
  for (const block of document.querySelectorAll("script[data-packed]")) {
    const { packed: name, kind } = block.dataset;
    const bytes = Uint8Array.from(atob(block.textContent), letter => letter.charCodeAt(0));
    const unpacked = new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip")));
    const content = kind === "text/javascript"
      ? (await unpacked.text()).replace(/¤([^¤]+)¤/g, (_, other) => addresses[other])
      : await unpacked.arrayBuffer();
    addresses[name] = URL.createObjectURL(new Blob([content], { type: kind }));
    block.remove();
  }
  for (const program of Object.keys(programs)) { programs[program] = addresses[programs[program]]; }
  await import(addresses.start);
})();
