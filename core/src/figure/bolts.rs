//! In which order the bolts of a mould are tightened: numbers where the bolts stand.

use crate::{
    leaf::{Leaf, Style, Tone},
    scene::pen::{circle, polyline},
    workshop::press::Bolt,
};
use kurbo::{Point, Rect, Shape as _, Size};

/// Room at the nose's end for its arrow, as a part of the height.
const ARROW: f64 = 0.32;

/// The mould from above, its nose to the right, and on each bolt its turn.
#[must_use]
pub fn tightening(order: &[Bolt], size: Size) -> Leaf {
    let mut leaf = Leaf::new(size);
    let Size { width, height } = size;
    let mould = Rect::new(0.3, 0.16 * height, width - ARROW * height, 0.84 * height);
    leaf.fill(mould.to_path(1.0), Tone::Wood);
    leaf.frame(mould, 0.25, Tone::Ink);
    let nose = Point::new(width - 0.3, height / 2.0);
    let barb = 0.08 * height;
    leaf.line((mould.x0 + 2.0 * barb, nose.y), nose, 0.2, Tone::Soft);
    let barbs = [(nose.x - barb, nose.y - barb), (nose.x, nose.y), (nose.x - barb, nose.y + barb)];
    leaf.stroke(polyline(&barbs.map(Point::from)), 0.2, Tone::Soft);
    let pairs = order.len().div_ceil(2).max(1) as f64;
    let step = mould.width() / pairs;
    // As large as a row of them has room for.
    let radius = (0.16 * height).min(0.42 * step);
    for (turn, bolt) in order.iter().enumerate() {
        let x = mould.x0 + (bolt.pair as f64 - 0.5) * step;
        let y = if bolt.left { radius + 0.2 } else { height - radius - 0.2 };
        let number = (turn + 1).to_string();
        let first = turn < 2;
        let ring = circle(Point::new(x, y), radius);
        leaf.fill(ring.clone(), if first { Tone::Red } else { Tone::Wood });
        leaf.stroke(ring, 0.25, if first { Tone::Red } else { Tone::Ink });
        let style = Style::bold(1.15 * radius).within(1.7 * radius, &number);
        let tone = if first { Tone::Wood } else { Tone::Ink };
        leaf.words_round(Point::new(x, y + style.capitals() / 2.0), style.toned(tone), &number);
    }
    leaf
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::workshop::press::tightening_order;

    #[test]
    fn every_bolt_has_its_turn_and_no_two_touch() {
        for bolts in [0, 1, 2, 7, 10, 60] {
            let leaf = tightening(&tightening_order(bolts), Size::new(60.0, 16.0));
            let texts: Vec<_> = leaf.texts().collect();
            assert_eq!(texts.len(), bolts);
            for (i, (area, _)) in texts.iter().enumerate() {
                assert!(size_holds(&leaf, *area));
                assert!(
                    texts[i + 1..].iter().all(|(other, _)| area.intersect(*other).is_zero_area()),
                    "{bolts}"
                );
            }
        }
    }

    fn size_holds(leaf: &Leaf, area: Rect) -> bool {
        leaf.size.to_rect().contains_rect(area)
    }

    #[test]
    fn the_first_bolt_stands_in_the_middle_on_the_left() {
        let leaf = tightening(&tightening_order(10), Size::new(60.0, 16.0));
        let (area, _) = leaf.texts().find(|(_, text)| *text == "1").unwrap();
        let mould = 60.0 - ARROW * 16.0;
        assert!((area.center().x - mould / 2.0).abs() < 0.5 && area.center().y < 8.0, "{area}");
    }
}
