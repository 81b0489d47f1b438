//! Every view as a picture, light and dark, as it was when somebody last looked at it.
//!
//! The light ones are in the README. `UPDATE_PICTURES=1` draws those anew that differ. A software
//! renderer draws them, which is the same everywhere but for its version: a pixel at an edge may
//! come out a little lighter or darker. So colours are rounded, which also makes small files, a
//! pixel counts where its colour differs to the eye, and a few may. No moved line and no changed
//! digit is that small.

use crate::hand::Hand;
use crate::loading::to_a_reading;
use egui::{Key, Modifiers};
use egui_kittest::{SnapshotOptions, try_image_snapshot_options};
use image::codecs::png::{CompressionType, FilterType, PngEncoder};
use image::{DynamicImage, RgbaImage};
use std::path::{Path, PathBuf};
use traywright::action::View;

/// Colours are rounded to whole multiples of this, of 255.
const ROUNDED: u8 = 4;

/// Tolerance for a pixel, as a weighted square of the difference in colour: some times what
/// rounding makes of a difference of one. And the number of pixels that may be farther off: a
/// missing digit of the smallest type makes 23.
const TOLERANCE: (f32, usize) = (120.0, 12);

/// The views, each with the name of its picture.
const PICTURES: [(View, &str); 11] = [
    (View::Start, "start"),
    (View::Case, "case"),
    (View::Arch, "arch"),
    (View::Site, "site"),
    (View::Findings, "findings"),
    (View::Order, "order"),
    (View::Tray, "tray"),
    (View::Loading, "loading"),
    (View::Surgery, "surgery"),
    (View::Sheet, "sheet"),
    (View::Kit, "kit"),
];

/// The window at a view, as a picture shows it.
fn at(view: View) -> Hand {
    if view == View::Start {
        return Hand::new();
    }
    let mut hand = Hand::new().with_demo("two-molars");
    hand.go(view);
    hand.wait();
    if view == View::Loading {
        to_a_reading(&mut hand);
    }
    hand
}

/// The picture of the window, without the pointer.
fn drawn(hand: &mut Hand) -> RgbaImage {
    hand.harness.remove_cursor();
    hand.harness.run();
    let mut image = hand.harness.render().expect("a renderer");
    for pixel in image.pixels_mut() {
        for part in &mut pixel.0[..3] {
            *part = part.saturating_add(ROUNDED / 2) / ROUNDED * ROUNDED;
        }
    }
    image
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../assets/pictures")
}

/// Nothing before the rows and the best compression: drawings have large even areas.
fn write(image: &RgbaImage, name: &str) {
    let file = folder().join(format!("{name}.png"));
    std::fs::create_dir_all(file.parent().expect("a folder")).expect("a folder");
    let file = std::fs::File::create(file).expect("a file");
    let encoder = PngEncoder::new_with_quality(file, CompressionType::Best, FilterType::NoFilter);
    let image = DynamicImage::ImageRgba8(image.clone()).to_rgb8();
    image.write_with_encoder(encoder).expect("a picture");
}

/// Small enough to be kept in the repository and to be loaded with the README, bytes.
const MOST: u64 = 150_000;

/// The differences of a picture, unless it is drawn anew.
fn differs(hand: &mut Hand, name: &str) -> Option<String> {
    let (colour, pixels) = TOLERANCE;
    let options = SnapshotOptions::new()
        .threshold(colour)
        .max_failed_pixels(pixels)
        .output_path(folder());
    let image = drawn(hand);
    let size = std::fs::metadata(folder().join(format!("{name}.png")));
    let size = size.map_or(0, |file| file.len());
    assert!(size < MOST, "{name}: {size} bytes");
    let differs = try_image_snapshot_options(&image, name, &options).err()?;
    if std::env::var_os("UPDATE_PICTURES").is_some() {
        write(&image, name);
        return None;
    }
    Some(differs.to_string())
}

#[test]
fn the_views_look_as_they_did() {
    let mut found = Vec::new();
    for (view, name) in PICTURES {
        let mut hand = at(view);
        found.extend(differs(&mut hand, name));
        hand.press(Modifiers::COMMAND | Modifiers::SHIFT, Key::D);
        found.extend(differs(&mut hand, &format!("dark/{name}")));
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}
