//! A scan or photograph as pixels: decoded, upright, within bounds of memory.

use std::io::Cursor;

use image::{DynamicImage, ImageDecoder, ImageFormat, ImageReader, Limits};

/// What a picture may take in memory while it is decoded: a scan of 8×10 in at 1200 dpi in 16 bits a channel.
const MEMORY: u64 = 1 << 30;

/// The pixels of a PNG, JPEG or TIFF file, turned as the file says. Fails with the reason in words.
pub fn decode(bytes: &[u8]) -> Result<DynamicImage, String> {
    upright(bytes).map_err(|error| format!("it cannot be read as a picture: {error}"))
}

fn upright(bytes: &[u8]) -> image::ImageResult<DynamicImage> {
    let mut reader = ImageReader::new(Cursor::new(bytes)).with_guessed_format()?;
    let format = reader
        .format()
        .filter(|format| matches!(format, ImageFormat::Png | ImageFormat::Jpeg | ImageFormat::Tiff));
    if format.is_none() {
        reader.clear_format();
    }
    let mut limits = Limits::default();
    limits.max_alloc = Some(MEMORY);
    reader.limits(limits);
    let mut decoder = reader.into_decoder()?;
    let orientation = decoder.orientation()?;
    let mut picture = DynamicImage::from_decoder(decoder)?;
    picture.apply_orientation(orientation);
    Ok(picture)
}
