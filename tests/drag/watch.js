// Runs in the page with the slider's id as arguments[0] and keeps in window.drag what happens to it. All times are those of
// performance.now(), in milliseconds.
const slider = document.getElementById(arguments[0]);
let last = slider.value;
const drag = { moves: [], longTasks: [], longFrames: [], stop: null };
window.drag = drag;

// When the browser got the last move of the mouse: before it waited for the page or for the next frame.
let moved = 0;
const note = event => { moved = event.timeStamp; };
addEventListener('pointermove', note, true);

// Captured on the window, so that it runs before anything of the page does; what it asks for is then the first to be
// called in the frame that shows what the page has made of the event.
const watch = event => {
    if (event.target !== slider) { return; }
    const move = { moved, began: performance.now(), ran: null, drawn: null, changed: null };
    drag.moves.push(move);
    requestAnimationFrame(() => {
        move.ran = performance.now();
        move.changed = slider.value !== last;
        last = slider.value;
        // A message is the first task after the frame's own, which ends with layout and painting.
        const channel = new MessageChannel();
        channel.port1.onmessage = () => { move.drawn = performance.now(); channel.port1.close(); };
        channel.port2.postMessage(null);
    });
};
addEventListener('input', watch, true);

// Both are counted from 50 ms on. Event timing would be no help: it counts neither moves of the mouse nor the input events of
// sliders.
const observe = (type, durations) => {
    if (!PerformanceObserver.supportedEntryTypes.includes(type)) { return null; }
    const keep = entries => entries.forEach(entry => durations.push(entry.duration));
    const observer = new PerformanceObserver(list => keep(list.getEntries()));
    observer.observe({ type });
    return () => { keep(observer.takeRecords()); observer.disconnect(); };
};
const ends = [observe('longtask', drag.longTasks), observe('long-animation-frame', drag.longFrames)];
drag.stop = () => {
    removeEventListener('pointermove', note, true);
    removeEventListener('input', watch, true);
    ends.forEach(end => end && end());
    return { moves: drag.moves, longTasks: ends[0] && drag.longTasks, longFrames: ends[1] && drag.longFrames };
};
