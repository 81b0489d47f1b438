//! The text of a PDF, read back with a library that had no part in writing it.

use lopdf::content::Content;
use lopdf::{Document, Object};
use std::collections::BTreeMap;

/// The text of each text object of a page, in drawing order.
pub(crate) fn lines(bytes: &[u8], page: u32) -> Vec<String> {
    let document = Document::load_mem(bytes).unwrap();
    let page_id = document.get_pages()[&page];
    let encodings: BTreeMap<Vec<u8>, _> = document
        .get_page_fonts(page_id)
        .unwrap()
        .into_iter()
        .map(|(name, font)| (name, font.get_font_encoding(&document).unwrap()))
        .collect();
    let content = Content::decode(&document.get_page_content(page_id)).unwrap();
    let mut lines = Vec::new();
    let mut line = String::new();
    let mut font = None;
    for operation in &content.operations {
        match operation.operator.as_str() {
            "BT" => line.clear(),
            "ET" => lines.push(line.clone()),
            "Tf" => font = encodings.get(operation.operands[0].as_name().unwrap()),
            "Tj" | "TJ" => {
                for bytes in strings(&operation.operands) {
                    line += &Document::decode_text(font.unwrap(), bytes).unwrap();
                }
            }
            _ => {}
        }
    }
    lines
}

fn strings(operands: &[Object]) -> Vec<&[u8]> {
    operands
        .iter()
        .flat_map(|operand| match operand {
            Object::Array(items) => strings(items),
            Object::String(bytes, _) => vec![bytes.as_slice()],
            _ => Vec::new(),
        })
        .collect()
}
