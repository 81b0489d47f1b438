//! Files in `assets/` and `demo/` made from the types: nobody edits them by hand.

use std::path::{Path, PathBuf};
use traywright_core::case::Case;
use traywright_core::document::ShippedSchema;
use traywright_core::figures::Figures;
use traywright_core::kit::Kit;
use traywright_core::order::{Answer, Problem};
use traywright_core::sign::EventLine;
use traywright_core::store::{Shipping, ship};

fn assets() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../assets")
}

fn how() -> Shipping {
    if std::env::var_os("UPDATE_ASSETS").is_some() {
        Shipping::Rewrite
    } else {
        Shipping::Compare
    }
}

fn schemas() -> [ShippedSchema; 6] {
    [
        ShippedSchema::of::<Case>("case.schema.json"),
        ShippedSchema::of::<Kit>("kit.schema.json"),
        ShippedSchema::of::<Figures>("figures.schema.json"),
        ShippedSchema::of::<EventLine>("events.schema.json"),
        ShippedSchema::of::<Problem>("order.schema.json"),
        ShippedSchema::of::<Answer>("order-answer.schema.json"),
    ]
}

#[test]
fn the_shipped_schemas_are_those_of_the_types() {
    for schema in schemas() {
        if let Err(difference) = ship(&schema, &assets(), how()) {
            panic!("{difference}; UPDATE_ASSETS=1 writes it anew");
        }
    }
}

#[test]
fn no_schema_lets_an_unknown_key_pass() {
    for schema in schemas() {
        let open: Vec<String> = schema
            .open_objects()
            .into_iter()
            // Reasons and explanations stand under the keys that they explain.
            .filter(|place| {
                !["unknown", "explain", "args", "Unknown"]
                    .iter()
                    .any(|map| place.contains(map))
            })
            .collect();
        assert!(open.is_empty(), "{}: {open:?}", schema.file);
    }
}
