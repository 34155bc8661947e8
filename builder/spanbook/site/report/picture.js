// A photograph as it is handed over: made anew by the browser, upright, no larger than a page shows, and nothing else
// in it: no place where it was taken, no device, no remarks.
"use strict";

const SpanbookPicture = (() => {
  const LONGEST = 1920; // pixels of a side: a page shows no more
  const QUALITY = 0.85;
  const TYPE = "image/jpeg";

  // A browser may keep pages from reading what they drew, against being told apart by it: it gives noise then.
  function readable() {
    const context = Object.assign(document.createElement("canvas"), { width: 2, height: 1 }).getContext("2d");
    context.fillStyle = "#28c864";
    context.fillRect(0, 0, 2, 1);
    return [...context.getImageData(0, 0, 2, 1).data].join() === "40,200,100,255,40,200,100,255";
  }

  function drawn(bitmap, longest) {
    const scale = Math.min(1, longest / Math.max(bitmap.width, bitmap.height));
    const [width, height] = [bitmap.width, bitmap.height].map((side) => Math.max(1, Math.round(side * scale)));
    const canvas = Object.assign(document.createElement("canvas"), { width, height });
    const context = canvas.getContext("2d");
    context.fillStyle = "#ffffff"; // where it lets through
    context.fillRect(0, 0, width, height);
    context.imageSmoothingQuality = "high";
    context.drawImage(bitmap, 0, 0, width, height);
    return canvas;
  }

  // Upright, whatever way round the camera was held.
  const opened = (blob) => createImageBitmap(blob, { imageOrientation: "from-image" });

  // The bytes of a picture made anew; throws "unreadable" or "kept" (the browser keeps it from being made smaller).
  async function anew(file) {
    if (!readable()) throw new Error("kept");
    const bitmap = await opened(file).catch(() => { throw new Error("unreadable"); });
    const canvas = drawn(bitmap, LONGEST);
    bitmap.close();
    const blob = await new Promise((resolve) => { canvas.toBlob(resolve, TYPE, QUALITY); });
    if (blob?.type !== TYPE) throw new Error("unreadable");
    return new Uint8Array(await blob.arrayBuffer());
  }

  // A picture in small, to be shown beside its words.
  async function small(bytes, longest) {
    const bitmap = await opened(new Blob([bytes], { type: TYPE }));
    const canvas = drawn(bitmap, longest);
    bitmap.close();
    return canvas;
  }

  return { anew, small };
})();
