//! Files that are no JSON, no text, or not a document of the kind that was asked for.

use super::edit::{before, bytes, set, text, without};
use super::{ARCH, MOLARS, Of, PREMOLAR, Row, row};

const CUT_OFF: &str =
    "If the file was cut off, restore it from a backup; otherwise close what is open";
const ENDS_HERE: &str = "what follows can be checked only once this fault is corrected";

fn utf16(text: &str, unit: fn(u16) -> [u8; 2], mark: &[u8]) -> Vec<u8> {
    let mut bytes = mark.to_vec();
    bytes.extend(text.encode_utf16().flat_map(unit));
    bytes
}

/// The text in an encoding of one byte a letter; what has no byte there becomes a question mark.
fn latin1(text: &str) -> Vec<u8> {
    text.chars()
        .map(|c| u8::try_from(c).unwrap_or(b'?'))
        .collect()
}

#[rustfmt::skip] // One row a line, so that the table reads as one.
pub(super) fn rows() -> Vec<Row> {
    vec![
        // Cut off, as by a full disk or a broken copy.
        row("empty case", PREMOLAR, [bytes(|_| Vec::new())], &["case.json", "the file is empty. Choose another file, or restore this one from a backup"]),
        row("empty kit", Of::Kit, [bytes(|_| Vec::new())], &["kit.json", "the file is empty. Choose another file, or restore this one from a backup"]),
        row("blank case", PREMOLAR, [bytes(|_| b"  \n\n".to_vec())], &["case.json", "the file is empty. Choose another file"]),
        row("case cut in half", PREMOLAR, [bytes(|text| text.as_bytes()[..text.len() / 2].to_vec())], &["the text stops inside", CUT_OFF, ENDS_HERE]),
        row("case without its last bracket", PREMOLAR, [bytes(|text| text.trim_end().trim_end_matches('}').into())], &["the text stops inside an object, which begins with { on line 1.", CUT_OFF]),
        row("case cut within a number", PREMOLAR, [bytes(|text| text.split_inclusive("\n        \"entered_mm\": 3.").next().unwrap().into())], &["sites[0] › platform_to_sleeve › entered_mm", "the text stops inside a value", CUT_OFF]),
        row("case cut within a name", ARCH, [bytes(|text| text.split_inclusive("\"access\": \"pu").next().unwrap().into())], &["guide › access: the text stops inside a text, which begins with a quote on line 10", CUT_OFF]),
        row("case cut after its first byte", PREMOLAR, [bytes(|_| b"{".to_vec())], &["line 1, column 2: the text stops inside an object", CUT_OFF]),
        row("kit cut in half", Of::Kit, [bytes(|text| text.as_bytes()[..text.len() / 2].to_vec())], &["kit.json", "the text stops inside", CUT_OFF]),
        row("kit cut within an id", Of::Kit, [bytes(|text| text.split_inclusive("\"id\": \"tip-3").next().unwrap().into())], &["drills[2] › id: the text stops inside a text", CUT_OFF]),
        // Other encodings and bytes that are no text.
        row("case in UTF-16 LE", PREMOLAR, [bytes(|text| utf16(text, u16::to_le_bytes, b"\xFF\xFE"))], &["case.json", "the text is encoded as UTF-16 LE. Save it as UTF-8"]),
        row("case in UTF-16 BE", PREMOLAR, [bytes(|text| utf16(text, u16::to_be_bytes, b"\xFE\xFF"))], &["case.json", "the text is encoded as UTF-16 BE. Save it as UTF-8"]),
        row("case in UTF-16 without mark", PREMOLAR, [bytes(|text| utf16(text, u16::to_le_bytes, b""))], &["case.json", "the text is encoded as UTF-16 LE. Save it as UTF-8"]),
        row("case in UTF-32", PREMOLAR, [bytes(|text| text.chars().flat_map(|c| u32::from(c).to_le_bytes()).collect())], &["case.json", "the text is encoded as UTF-32 LE. Save it as UTF-8"]),
        row("kit in Latin-1", Of::Kit, [bytes(latin1)], &["line ", "the byte D7 is not UTF-8. Save the text as UTF-8"]),
        row("kit in UTF-16 BE", Of::Kit, [bytes(|text| utf16(text, u16::to_be_bytes, b"\xFE\xFF"))], &["kit.json", "the text is encoded as UTF-16 BE. Save it as UTF-8"]),
        row("case with a NUL", PREMOLAR, [text("DEMO-A1", "DEMO\0A1")], &["line 4, column 21: the text has a NUL byte", "Restore it from a backup"]),
        row("case full of NUL", PREMOLAR, [bytes(|text| vec![0; text.len()])], &["line 1, column 1: the text has a NUL byte", "Restore it from a backup"]),
        row("case that is a picture", PREMOLAR, [bytes(|_| b"\x89PNG\r\n\x1a\n".to_vec())], &["line 1, column 1: the byte 89 is not UTF-8", "if it was saved that way, the file is damaged: restore it from a backup"]),
        row("case that is a spreadsheet", PREMOLAR, [bytes(|_| b"PK\x03\x04 and so on".to_vec())], &["line 1, column 1", "“PK” is not a value. Put a text in double quotes"]),
        row("half a letter at the end", PREMOLAR, [bytes(|text| [text.trim_end().as_bytes(), b"\xC3"].concat())], &["the byte C3 is not UTF-8", "restore it from a backup"]),
        // Too much of it.
        row("case beyond the size limit", PREMOLAR, [bytes(|text| { let mut bytes = text.as_bytes().to_vec(); bytes.resize(16 * 1024 * 1024 + 1, b' '); bytes })], &["case.json", "16777216", "Choose"]),
        row("kit beyond the size limit", Of::Kit, [bytes(|text| { let mut bytes = text.as_bytes().to_vec(); bytes.resize(17 * 1024 * 1024, b' '); bytes })], &["kit.json", "16777216", "Choose"]),
        row("case nested too deep", PREMOLAR, [set("team", "[".repeat(5000) + &"]".repeat(5000))], &["team[0]", "brackets are nested more than 64 levels deep. Choose a document of this program"]),
        row("kit nested too deep", Of::Kit, [set("allowances", "{\"a\":".repeat(80) + "1" + &"}".repeat(80))], &["allowances › a", "more than 64 levels deep. Choose a document of this program"]),
        row("case with too many values", PREMOLAR, [set("teeth", format!("[{}1]", "1,".repeat(200_000)))], &["teeth[", "there are more than the 200000 values that a document can have. Choose a document of this program"]),
        // Edited by hand.
        row("comma too many", PREMOLAR, [text("\"second_checker\": \"KE\"", "\"second_checker\": \"KE\",")], &["there is one comma too many, or something is missing next to it. Remove the comma", "line 148, column 3"]),
        row("comma too many in a list", ARCH, [text("\"depth\": {\n            \"rule\": \"full\"\n          }\n        }\n      ]", "\"depth\": {\n            \"rule\": \"full\"\n          }\n        },\n      ]")], &["sites[0] › steps[4]", "there is one comma too many, or something is missing next to it. Remove the comma"]),
        row("comma missing", PREMOLAR, [text("\"jaw\": \"lower\",", "\"jaw\": \"lower\"")], &["line 7, column 3: jaw: a comma or the closing } is expected here", "Enter the one that is missing, or remove what does not belong here"]),
        row("colon missing", PREMOLAR, [text("\"width_mm\":", "\"width_mm\"")], &["arch › width_mm: a colon is expected between key and value, not “54.7", "Enter a colon"]),
        row("value missing", PREMOLAR, [set("arch/width_mm", "")], &["arch › width_mm: a value is missing before “,”", "Enter the value, or leave the key out if that is allowed"]),
        row("comment", PREMOLAR, [before("revision", "// moved 0.3 to distal\n  ")], &["a document cannot contain comments", "Remove the comment"]),
        row("comment behind a value", Of::Kit, [set("drills/1/cutting_diameter_mm", "2.57 # new")], &["drills[1] › cutting_diameter_mm: a document cannot contain comments", "Remove the comment"]),
        row("single quotes", PREMOLAR, [set("jaw", "'lower'")], &["jaw: texts and keys need double quotes", "Use double quotes"]),
        row("curly quotes", PREMOLAR, [set("jaw", "“lower”")], &["jaw: texts and keys need double quotes", "Use double quotes"]),
        row("key without quotes", PREMOLAR, [before("revision", "note: \"x\",\n  ")], &["a key in double quotes is expected here, not “note”", "Put the key in double quotes"]),
        row("word without quotes", PREMOLAR, [set("jaw", "lower")], &["jaw: “lower” is not a value", "Put a text in double quotes"]),
        row("True with a capital", PREMOLAR, [set("demonstration", "True")], &["demonstration: “True” is not a value", "without quotes use only true, false, null or a number"]),
        row("decimal comma", PREMOLAR, [set("sites/0/platform_to_sleeve/entered_mm", "3,95")], &["sites[0] › platform_to_sleeve › entered_mm: “3,95” has a comma as decimal mark", "Write 3.95"]),
        row("decimal comma in the kit", Of::Kit, [set("master_sleeves/0/height_mm", "3,85")], &["master_sleeves[0] › height_mm: “3,85” has a comma as decimal mark", "Write 3.85"]),
        row("unit behind a number", PREMOLAR, [set("arch/width_mm", "54.7 mm")], &["arch › width_mm: a comma or the closing } is expected here, not “mm”", "Enter the one that is missing, or remove what does not belong here"]),
        row("unit at a number", PREMOLAR, [set("arch/width_mm", "54.7mm")], &["arch › width_mm: “54.7mm” is not written as a number", "Use digits with a point and without unit, plus sign or leading zeros"]),
        row("plus sign", PREMOLAR, [set("sites/0/placement/along_mm", "+0.3")], &["sites[0] › placement › along_mm: “+0.3” is not written as a number", "without unit, plus sign or leading zeros"]),
        row("number begun with a point", PREMOLAR, [set("sites/0/placement/along_mm", ".3")], &["sites[0] › placement › along_mm: “.3” is not written as a number", "Use digits with a point"]),
        row("leading zeros", PREMOLAR, [set("sites/0/placement/along_mm", "00.3")], &["along_mm: “00.3” is not written as a number", "leading zeros"]),
        row("NaN", PREMOLAR, [set("sites/0/platform_to_sleeve/entered_mm", "NaN")], &["sites[0] › platform_to_sleeve › entered_mm: “NaN” is not a number that can be stored", "Enter a number, or leave the key out if it is unknown"]),
        row("infinity", Of::Kit, [set("implants/3/platform_to_apex_mm", "Infinity")], &["implants[3] › platform_to_apex_mm: “Infinity” is not a number that can be stored", "Enter a number"]),
        row("minus infinity", PREMOLAR, [set("sites/0/placement/buccal_mm", "-Infinity")], &["buccal_mm: “-Infinity” is not a number that can be stored", "Enter a number"]),
        row("line break in a text", PREMOLAR, [set("reference", "\"DEMO\nA1\"")], &["reference: a text cannot contain the character U+000A as it is", "Write it as an escape, such as \\n for a line break, or remove it"]),
        row("bad escape", PREMOLAR, [set("note", "\"C:\\cases\"")], &["note: “\\c", "Write \\\\ for a backslash"]),
        row("text behind the end", PREMOLAR, [bytes(|text| format!("{text}copy of Tuesday\n").into())], &["the document has ended, but “copy” follows", "Remove what follows, or one closing bracket too many"]),
        row("two documents in one file", PREMOLAR, [bytes(|text| text.repeat(2).into())], &["line 1964, column 1: the document has ended, but “{” follows", "Remove what follows"]),
        row("bracket too many", Of::Kit, [bytes(|text| format!("{text}}}").into())], &["the document has ended, but “}” follows", "or one closing bracket too many"]),
        // Not what was asked for.
        row("kit given as case", PREMOLAR, [bytes(|_| crate::demo::bytes("kit"))], &["line 1, column 1: this is a Traywright kit, not a case", "Choose the case"]),
        row("case given as kit", Of::Kit, [bytes(|_| crate::demo::bytes("one-premolar"))], &["line 1, column 1: this is a Traywright case, not a kit", "Choose the kit"]),
        row("events given as case", PREMOLAR, [bytes(|_| b"{\"traywright_events\":1,\"case\":\"DEMO-A1\",\"jaw\":\"lower\",\"writer\":\"desk\"}\n".to_vec())], &["this is not a Traywright case: the key \"traywright_case\" is missing", "Choose another file"]),
        row("a list given as case", PREMOLAR, [bytes(|_| b"[]".to_vec())], &["this is not a Traywright case", "Choose another file"]),
        row("other JSON given as kit", Of::Kit, [bytes(|_| b"{\"version\": 3}".to_vec())], &["this is not a Traywright kit: the key \"traywright_kit\" is missing", "Choose another file"]),
        row("case without its version", PREMOLAR, [without("traywright_case")], &["this is not a Traywright case: the key \"traywright_case\" is missing", "Choose another file"]),
        row("newer case", PREMOLAR, [set("traywright_case", "2")], &["traywright_case: the case is of version 2, and this program reads versions up to 1", "Update the program"]),
        row("newer kit", Of::Kit, [set("traywright_kit", "7")], &["traywright_kit: the kit is of version 7, and this program reads versions up to 1", "Update the program"]),
        row("newer case with keys of its own", MOLARS, [text("\"revision\"", "\"sides\": 2, \"revision\""), set("traywright_case", "3")], &["traywright_case: the case is of version 3", "Update the program"]),
        row("version 0", PREMOLAR, [set("traywright_case", "0")], &["traywright_case: 0 is not a version", "Write 1, or the version that the file was saved with"]),
        row("version as text", PREMOLAR, [set("traywright_case", "\"1\"")], &["traywright_case: \"1\" is not a version", "Write 1"]),
        row("half a version", Of::Kit, [set("traywright_kit", "1.5")], &["traywright_kit: 1.5 is not a version", "Write 1"]),
    ]
}
