//! How the weighed masses of a lot lie: bars of counts over the nominal band, the mean as a line, what stands apart as
//! triangles. A click on a bar selects its bags in the list below.

use super::hand::Hand;
use crate::look::{self, Look};
use drafting::figure::Ink;
use eframe::egui::{Align2, Color32, RichText, Stroke, Ui, WidgetInfo, accesskit::Role};
use egui_plot::{Bar, BarChart, MarkerShape, Plot, PlotPoint, PlotUi, Points, Polygon, Text, VLine};
use plan::Lot;
use plan::weighing::Outlier;
use quantity::{Grain, Kind, Mass, Quantity, Units};

/// Height and greatest width of the drawing, points: beside the list, and in a column of its own.
const SMALL: [f32; 2] = [120.0, 520.0];
const LARGE: [f32; 2] = [230.0, 1300.0];
/// So much of the highest bar is left over the bars, and where words stand there.
const OVER: [f64; 2] = [1.15, 1.35];
/// Fewer weighed items have no shape.
pub(super) const LEAST: usize = 3;
/// So many bars from the lightest to the heaviest.
const BARS: u32 = 12;

/// Masses from this one up to below that one, kg.
pub(super) type Range = [f64; 2];

/// Counts of masses (kg) in bars of equal width.
#[derive(Debug, PartialEq)]
struct Bins {
    low: f64,
    width: f64,
    counts: Vec<u32>,
}

impl Bins {
    /// Bars no narrower than this: masses that are alike stand in one bar about them, which is seen.
    fn of(masses_kg: &[f64], least_kg: f64) -> Self {
        let low = masses_kg.iter().copied().fold(f64::INFINITY, f64::min);
        let high = masses_kg.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let width = ((high - low) / f64::from(BARS)).max(least_kg);
        let low = if high - low < width { f64::midpoint(low, high) - 0.5 * width } else { low };
        let mut bins = Self { low, width, counts: vec![0; BARS as usize] };
        for mass_kg in masses_kg {
            let bar = bins.bar_at(*mass_kg);
            bins.counts[bar] += 1;
        }
        bins
    }

    /// The bar in which a mass lies; the heaviest counts to the last.
    fn bar_at(&self, mass_kg: f64) -> usize {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within the bars")]
        let bar = ((mass_kg - self.low) / self.width).floor().max(0.0) as usize;
        bar.min(self.counts.len() - 1)
    }

    fn range(&self, bar: usize) -> Range {
        #[expect(clippy::cast_precision_loss, reason = "a dozen bars")]
        let from = self.low + bar as f64 * self.width;
        let last = bar + 1 == self.counts.len();
        [from, if last { f64::INFINITY } else { from + self.width }]
    }
}

/// The least width of a bar, so that it is seen beside the nominal band: a sixtieth of it.
fn least_kg(lot: &Lot) -> f64 {
    (2.0 * lot.mass_tolerance.si() / 60.0).max(0.001)
}

/// Whether a mass belongs to the bar that is selected.
pub(super) fn is_in(bar: Option<Range>, mass: Mass) -> bool {
    bar.is_some_and(|[from, to]| (from..to).contains(&mass.si()))
}

/// What is drawn: a lot, those of it that stand apart, and in which units.
type Drawn<'a> = (&'a Lot, &'a [Outlier], Units);

/// Beside the list.
pub(super) fn show(ui: &mut Ui, look: &Look, hand: &mut Hand, drawn: Drawn) {
    sized(ui, look, hand, drawn, false);
}

/// In a column of its own, with words in it.
pub(super) fn large(ui: &mut Ui, look: &Look, hand: &mut Hand, drawn: Drawn) {
    sized(ui, look, hand, drawn, true);
}

fn sized(ui: &mut Ui, look: &Look, hand: &mut Hand, (lot, outliers, units): Drawn, is_large: bool) {
    let masses_kg: Vec<f64> = lot.weighed.values().map(|mass| mass.si()).collect();
    if masses_kg.len() < LEAST {
        return;
    }
    let (bins, unit) = (Bins::of(&masses_kg, least_kg(lot)), units.unit(Kind::Mass, Grain::Coarse));
    let shown = |kg: f64| kg / unit.si;
    let highest = f64::from(bins.counts.iter().copied().max().unwrap_or(1));
    let top = OVER[usize::from(is_large)] * highest;
    let [high, widest] = if is_large { LARGE } else { SMALL };
    let plot = Plot::new("masses of the lot").height(high).width(ui.available_width().min(widest));
    let plot = plot.show_grid([false, true]).show_y(false).allow_drag(false).allow_zoom(false).allow_scroll(false);
    let plot = plot.allow_boxed_zoom(false).include_y(0.0).include_y(top).x_axis_label(unit.symbol);
    let answer = plot.show(ui, |plot| {
        let [low, high] = [lot.mass - lot.mass_tolerance, lot.mass + lot.mass_tolerance].map(|mass| shown(mass.si()));
        let band = vec![[low, 0.0], [high, 0.0], [high, top], [low, top]];
        let fill = look.ink(Ink::Wanted).gamma_multiply(0.12);
        plot.polygon(Polygon::new("nominal", band).fill_color(fill).stroke(Stroke::NONE).allow_hover(false));
        let bars = bins.counts.iter().enumerate().map(|(bar, count)| {
            let [from, _] = bins.range(bar);
            let is_selected = hand.bar.is_some_and(|[at, _]| (at - from).abs() < 1e-9);
            let ink = look.ink(Ink::Is).gamma_multiply(if is_selected { 1.0 } else { 0.6 });
            Bar::new(shown(from + 0.5 * bins.width), f64::from(*count)).width(shown(bins.width) * 0.9).fill(ink)
        });
        plot.bar_chart(BarChart::new("pieces", bars.collect()).allow_hover(false));
        let mean = masses_kg.iter().sum::<f64>() / f64::from(u32::try_from(masses_kg.len()).unwrap_or(u32::MAX));
        plot.vline(VLine::new("mean", shown(mean)).color(look.ink(Ink::Line)).width(1.2));
        if is_large {
            let nominal = format!(
                "nominal {} ± {}",
                lot.mass.shown(units, Grain::Coarse),
                lot.mass_tolerance.shown(units, Grain::Coarse)
            );
            word(plot, [low, top], nominal, look.ink(Ink::Wanted));
            word(plot, [shown(mean), 0.91 * top], "mean".to_owned(), look.ink(Ink::Line));
        }
        let apart: Vec<[f64; 2]> = outliers.iter().map(|o| [shown(o.mass.si()), highest * 1.05]).collect();
        let triangles = Points::new("stands apart", apart).shape(MarkerShape::Down).radius(5.0);
        plot.points(triangles.color(look.ink(Ink::Wanted)));
    });
    let told = format!("{} masses of {}, {} stand apart", masses_kg.len(), lot.name, outliers.len());
    answer.response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &told));
    if answer.response.clicked()
        && let Some(at) = answer.response.interact_pointer_pos()
    {
        let range = bins.range(bins.bar_at(answer.transform.value_from_position(at).x * unit.si));
        hand.bar = if hand.bar == Some(range) { None } else { Some(range) };
        let first = lot.weighed.iter().find(|(_, mass)| is_in(hand.bar, **mass));
        hand.item = first.map_or(hand.item, |(item, _)| *item);
    }
}

/// A word to the right of a point of the drawing and below it.
fn word(plot: &mut PlotUi, [x, y]: [f64; 2], text: String, ink: Color32) {
    let words = RichText::new(format!(" {text}")).size(look::SMALL).color(ink);
    plot.text(Text::new(text, PlotPoint::new(x, y), words).anchor(Align2::LEFT_TOP).allow_hover(false));
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: from 24 to 25.2 kg twelve bars of 0.1 kg; the heaviest counts to the last.
    #[test]
    fn every_mass_is_counted_once_and_the_heaviest_to_the_last_bar() {
        let bins = Bins::of(&[24.0, 24.05, 24.61, 25.2], 0.001);
        assert_eq!(bins.counts, [2, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1]);
        assert!(is_in(Some(bins.range(11)), Mass::kg(25.2)) && !is_in(Some(bins.range(0)), Mass::kg(24.61)));
    }

    /// By hand: twelve boards of 1.51 kg in a band of 1.21 kg; the bar is 20 g wide and stands about them.
    #[test]
    fn masses_that_are_alike_stand_in_one_bar_about_them_that_is_wide_enough_to_be_seen() {
        let bins = Bins::of(&[1.51; 12], 0.02);
        assert_eq!(bins.counts[0], 12);
        let [from, to] = bins.range(0);
        assert!((from - 1.50).abs() < 1e-9 && (to - 1.52).abs() < 1e-9, "got {from} to {to} kg, want 1.50 to 1.52 kg");
    }
}
