//! The views, one file or folder each.

pub mod arch;
pub mod case;
pub mod findings;
pub mod form;
pub mod history;
pub mod kit;
pub mod loading;
pub mod offer;
pub mod order;
pub mod record;
pub mod sheet;
pub mod shortage;
pub mod site;
pub mod start;
pub mod surgery;
pub mod tray;
