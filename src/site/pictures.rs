//! Pictures for the site: scaled for the screen, upright, and without what a camera or phone wrote into them.
//!
//! A picture is decoded and encoded anew, so that nothing of the original file but its pixels is passed on: no place,
//! no serial number, no date. The original is never touched.

use image::DynamicImage;
use image::codecs::jpeg::JpegEncoder;
use image::codecs::png::{CompressionType, FilterType, PngEncoder};

use crate::tone::picture::decode;

/// The longest side on the site, in pixels: a scan of 5×7 in at 230 dpi, more than a screen shows.
pub const LONGEST_SIDE: u32 = 1600;

/// Why a picture cannot be shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unreadable(pub String);

/// Makes a picture ready for the site. Its path there tells the format: JPEG stays JPEG, everything else becomes PNG,
/// which loses nothing.
pub fn prepare(site_path: &str, bytes: &[u8]) -> Result<Vec<u8>, Unreadable> {
    let picture = decode(bytes).map_err(Unreadable)?;
    let picture = scaled(picture);
    let mut out = Vec::new();
    let written = if is_jpeg(site_path) {
        picture
            .to_rgb8()
            .write_with_encoder(JpegEncoder::new_with_quality(&mut out, 88))
    } else {
        let encoder = PngEncoder::new_with_quality(&mut out, CompressionType::Default, FilterType::Adaptive);
        eight_bit(&picture).write_with_encoder(encoder)
    };
    written.map_err(|error| Unreadable(format!("it cannot be written again: {error}")))?;
    Ok(out)
}

fn is_jpeg(path: &str) -> bool {
    let ending = path.rsplit_once('.').map_or("", |(_, ending)| ending);
    ending.eq_ignore_ascii_case("jpg") || ending.eq_ignore_ascii_case("jpeg")
}

fn scaled(picture: DynamicImage) -> DynamicImage {
    if picture.width().max(picture.height()) <= LONGEST_SIDE {
        return picture;
    }
    picture.resize(
        LONGEST_SIDE,
        LONGEST_SIDE,
        image::imageops::FilterType::CatmullRom,
    )
}

/// A screen shows eight bits a channel.
fn eight_bit(picture: &DynamicImage) -> DynamicImage {
    match (picture.color().has_color(), picture.color().has_alpha()) {
        (false, false) => picture.to_luma8().into(),
        (false, true) => picture.to_luma_alpha8().into(),
        (true, false) => picture.to_rgb8().into(),
        (true, true) => picture.to_rgba8().into(),
    }
}

#[cfg(test)]
mod tests {
    use std::io::Cursor;

    use super::*;
    use image::{ImageBuffer, ImageFormat, Luma, Rgb};

    fn encoded(picture: &DynamicImage, format: ImageFormat) -> Vec<u8> {
        let mut out = Cursor::new(Vec::new());
        picture.write_to(&mut out, format).unwrap();
        out.into_inner()
    }

    #[test]
    fn large_scans_are_scaled_and_small_ones_are_not() {
        let large: ImageBuffer<Luma<u16>, Vec<u16>> = ImageBuffer::from_pixel(3200, 1000, Luma([30_000]));
        let prepared = prepare("scans/a.TIF", &encoded(&large.into(), ImageFormat::Tiff)).unwrap();
        let shown = image::load_from_memory(&prepared).unwrap();
        assert_eq!((shown.width(), shown.height()), (1600, 500));
        let small: ImageBuffer<Rgb<u8>, Vec<u8>> = ImageBuffer::from_pixel(40, 30, Rgb([10, 20, 30]));
        let prepared = prepare("a.jpg", &encoded(&small.into(), ImageFormat::Jpeg)).unwrap();
        assert_eq!(image::load_from_memory(&prepared).unwrap().width(), 40);
    }

    #[test]
    fn what_was_written_into_a_picture_is_not_passed_on() {
        let small: ImageBuffer<Rgb<u8>, Vec<u8>> = ImageBuffer::from_pixel(8, 8, Rgb([10, 20, 30]));
        let mut file = encoded(&small.into(), ImageFormat::Jpeg);
        // An APP1 segment after the start-of-image marker, as ITU-T T.81 (1992) B.2.4.6 lays it out.
        let secret = b"51.2 N 0.1 E SERIAL-4711";
        let length = u16::try_from(secret.len() + 2).unwrap().to_be_bytes();
        let segment = [&[0xff, 0xe1][..], &length, secret].concat();
        file.splice(2..2, segment);
        let prepared = prepare("a.jpg", &file).unwrap();
        assert!(!prepared.windows(secret.len()).any(|window| window == secret));
    }

    #[test]
    fn what_is_no_picture_is_refused() {
        assert!(prepare("a.png", b"<svg onload='x'/>").is_err());
        assert!(prepare("a.png", &[]).is_err());
    }
}
