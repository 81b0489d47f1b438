//! What is in the bone here already, by a plan that was changed since.

use super::SiteForm;
use crate::field::{InCase, New};
use crate::look::caption;
use traywright_core::case::PlatformThen;

const TIP: InCase = InCase("sites[].cut_before[].tip_mm");
const WHAT: &str = "site-what-cut-before";

/// Lists it: each may be said not to be in the bone, and where nobody knows how deep one is, that may be measured.
pub(super) fn ui(form: &mut SiteForm<'_, '_, '_>) {
    let here = form.on;
    let purpose = here.document.case().purpose();
    let kit = &here.document.case().kit;
    let all = here.site.cut_before.iter().enumerate();
    for (n, one) in all.filter(|(_, one)| one.purpose == purpose) {
        caption(form.ui, here.formatter.cut_before(here.site, one));
        let key = format!("cut_before[{n}]");
        if one.tip(here.site, kit).is_none() {
            let label = form.cx.text("site-cut-tip", &[("name", one.name.as_str())]);
            if let Some(New(Some(tip))) = form.number(&label, &key, None, TIP) {
                let led = here.site.platform_to_sleeve.is_some();
                let now = PlatformThen::of(here.site, kit, led);
                form.change(WHAT, &key, |site| {
                    let one = &mut site.cut_before[n];
                    (one.tip_mm, one.from) = (Some(tip), now);
                });
            }
        }
        let told = here.formatter.not_cut(one);
        let button = egui::Button::new(form.word("site-not-cut")).small();
        let response = form.ui.add(button);
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &told));
        if response.on_hover_text(&told).clicked() {
            form.change(WHAT, &key, |site| {
                site.cut_before.remove(n);
            });
        }
    }
}
