//! `trayside tend`: that what it presses is what `press` would press, what it shows and to whom, and how it stops.

mod folder;
mod log;
mod moved;
mod preview;
mod rounds;
mod running;

use trayside::host::Memory;
use trayside::pipeline::SETTINGS;

use crate::support::USUAL;

/// A page without fault.
const CAMERA: &str = "\
# Cameras

The tin works at {{ tea-tin.f-number }}.

```camera
title: Tea tin
pinhole: 0.3 mm
distance: 90 mm
plane: flat
format: 4×5 in
```
";

/// The same page in the middle of an edit: a fault.
const BROKEN: &str = "\
# Cameras, half written

```camera
title: Tea tin
pinhole: 0.3 mmm
distance: 90 mm
plane: flat
format: 4×5 in
```
";

/// A small notebook.
fn small() -> Memory {
    Memory::new()
        .with(SETTINGS, USUAL)
        .with(
            "index.md",
            "# Home\n\n[The tin](#tea-tin) and [the log](log/one.md).\n",
        )
        .with("cameras.md", CAMERA)
        .with("log/one.md", "# One\n\nRain.\n")
}

/// A grey picture, the larger the number the darker.
fn picture(number: u8) -> Vec<u8> {
    let grey = image::GrayImage::from_pixel(6, 4, image::Luma([255 - number]));
    let mut out = std::io::Cursor::new(Vec::new());
    grey.write_to(&mut out, image::ImageFormat::Png).unwrap();
    out.into_inner()
}
