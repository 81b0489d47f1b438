//! The kind and version that a document gives itself.

use super::fault::clipped;
use super::node::{Node, Shape};
use super::{Argument, Fault, Path, Rule};

/// A kind of document: told by its first key, whose value is the version.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Kind {
    /// The key, such as `traywright_case`.
    pub key: &'static str,
    /// The id of the kind's name in texts, such as `case`.
    pub name: &'static str,
    /// The oldest version that is read.
    pub oldest: u64,
    /// The version that this program writes, and the newest that it reads.
    pub version: u64,
    /// The key of the rules by which it was worked out and the newest that this program knows, where it has some.
    pub rules: Option<(&'static str, u64)>,
    /// True if its texts go on paper, so that they hold only what the bundled fonts can print.
    pub is_printed: bool,
}

/// All kinds of documents, so that one given for another can be called by its name.
pub type Kinds = &'static [Kind];

/// Refuses a document of another kind, and one whose version is not read.
pub(super) fn check(root: &Node, kind: &Kind, kinds: Kinds) -> Result<(), Fault> {
    let fault = |path, rule| {
        Fault::new(path, rule)
            .with("kind", kind.name)
            .with("key", Argument::key(kind.key))
            .with("version", kind.version)
    };
    let Some(member) = root.member(kind.key) else {
        let other = kinds.iter().find(|other| root.member(other.key).is_some());
        return Err(match other {
            Some(other) => fault(Path::root(), Rule::OtherKind).with("other", other.name),
            None => fault(Path::root(), Rule::NotThisKind),
        });
    };
    let path = Path::root().key(kind.key);
    let written = match &member.node.shape {
        Shape::Number(decimal) => decimal.text().to_owned(),
        Shape::Text(text) => format!("\"{text}\""),
        Shape::Bool(yes) => yes.to_string(),
        Shape::Null => "null".to_owned(),
        Shape::List(_) => "[…]".to_owned(),
        Shape::Object(_) => "{…}".to_owned(),
    };
    let fault = |rule| fault(path.clone(), rule).with("value", clipped(&written));
    match written.parse::<u64>() {
        Ok(version) if version > kind.version => Err(fault(Rule::NewerVersion)),
        Ok(version) if version >= kind.oldest => rules(root, kind),
        Ok(1..) => Err(fault(Rule::OlderVersion).with("oldest", kind.oldest)),
        _ => Err(fault(Rule::BadVersion)),
    }
}

/// Refuses a document whose figures came about by rules that are not known here.
fn rules(root: &Node, kind: &Kind) -> Result<(), Fault> {
    let Some((key, newest)) = kind.rules else {
        return Ok(());
    };
    let Some(Shape::Number(written)) = root.member(key).map(|member| &member.node.shape) else {
        return Ok(());
    };
    match written.text().parse::<u64>() {
        Ok(of) if of > newest => Err(Fault::new(Path::root().key(key), Rule::NewerRules)
            .with("kind", kind.name)
            .with("value", clipped(written.text()))
            .with("version", newest)),
        _ => Ok(()),
    }
}
