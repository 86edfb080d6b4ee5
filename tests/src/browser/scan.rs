//! What a phone that is held before the screen reads: codes in the picture of the page, by a second program's reader (crate `rqrr`).

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use rqrr::PreparedImage;
use serde_json::json;

use super::Page;

/// The picture in shades of grey, a letter for each pixel, and its width. It is read by the browser, which has made it.
const GREY: &str = "const bytes = Uint8Array.from(atob(arguments[0]), letter => letter.charCodeAt(0));
    return (async () => {
        const picture = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
        const paper = new OffscreenCanvas(picture.width, picture.height).getContext('2d');
        paper.drawImage(picture, 0, 0);
        const { data } = paper.getImageData(0, 0, picture.width, picture.height);
        const grey = [];
        for (let at = 0; at < data.length; at += 4) {
            grey.push(String.fromCharCode((data[at] + data[at + 1] + data[at + 2]) / 3));
        }
        return [picture.width, btoa(grey.join(''))];
    })()";

/// The texts of all codes that can be read in what is seen of `page`.
pub fn scanned(page: &Page) -> Vec<String> {
    let picture = page.wait(page.client.screenshot());
    let answer = page.script(GREY, vec![json!(STANDARD.encode(picture))]);
    let width = answer[0].as_u64().expect("a width") as usize;
    let grey = STANDARD.decode(answer[1].as_str().expect("pixels")).expect("base64");
    let mut image = PreparedImage::prepare_from_greyscale(width, grey.len() / width, |x, y| grey[y * width + x]);
    image.detect_grids().iter().filter_map(|grid| grid.decode().ok()).map(|(_, text)| text).collect()
}
