//! Words in a column beside the arch, each at the end of a line that crosses no other.

use super::space::cross;
use crate::drawing::Point;

/// A block of words and what it is about.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Block {
    /// The point that its line leads to, on the page.
    pub(super) target: Point,
    /// Height of the words, mm.
    pub(super) height: f64,
    /// From the top of the words down to where the line meets them, mm.
    pub(super) port: f64,
}

/// From one block to the next, mm.
pub(super) const GAP: f64 = 2.2;

/// The height of blocks one below the other, mm.
pub(super) fn stacked(heights: impl Iterator<Item = f64>) -> f64 {
    (heights.map(|height| height + GAP).sum::<f64>() - GAP).max(0.0)
}

/// The top of each block, in the order given, so that blocks lie as near to their targets as they
/// can without touching, between `top` and `bottom`, and no two of their lines cross.
///
/// All targets lie on the same side of the upright line at `port_x` on which the lines end. Blocks
/// that do not fit between the two reach below `bottom`.
pub(super) fn arrange(blocks: &[Block], port_x: f64, top: f64, bottom: f64) -> Vec<f64> {
    // From top to bottom as their targets lie is nearly always right. Where two lines cross their
    // blocks change places. With blocks of equal height that makes the lines shorter each time, so
    // it ends; with unequal ones it mostly does.
    let mut order: Vec<usize> = (0..blocks.len()).collect();
    order.sort_by(|&a, &b| blocks[a].target.y.total_cmp(&blocks[b].target.y));
    let own = |order: &[usize]| settled(blocks, order, None, top, bottom);
    uncrossed(blocks, &order, port_x, &own).unwrap_or_else(|| {
        let tallest = blocks.iter().map(|block| block.height).fold(0.0, f64::max);
        let port = blocks.iter().map(|block| block.port).fold(0.0, f64::max);
        // The places hang on the first order alone, whatever block then takes them.
        let places = settled(blocks, &order, Some((tallest, port)), top, bottom);
        let equal = |order: &[usize]| {
            order
                .iter()
                .zip(&places)
                .map(|(&block, place)| place + port - blocks[block].port)
                .collect()
        };
        uncrossed(blocks, &order, port_x, &equal).unwrap_or_else(|| in_turn(&order, &equal(&order)))
    })
}

/// Lets blocks whose lines cross change places until none do; nothing where that does not end.
fn uncrossed(
    blocks: &[Block],
    order: &[usize],
    port_x: f64,
    places: &dyn Fn(&[usize]) -> Vec<f64>,
) -> Option<Vec<f64>> {
    let mut order = order.to_vec();
    for _ in 0..=8 * blocks.len() * blocks.len() {
        let tops = places(&order);
        let line = |place: usize| {
            let block = blocks[order[place]];
            let port = Point {
                x: port_x,
                y: tops[place] + block.port,
            };
            (block.target, port)
        };
        let crossing = (0..order.len())
            .flat_map(|upper| (upper + 1..order.len()).map(move |lower| (upper, lower)))
            .find(|&(upper, lower)| cross(line(upper), line(lower)));
        match crossing {
            Some((upper, lower)) => order.swap(upper, lower),
            None => return Some(in_turn(&order, &tops)),
        }
    }
    None
}

/// Tops from top to bottom, as tops by block.
fn in_turn(order: &[usize], tops: &[f64]) -> Vec<f64> {
    let mut by_block = vec![0.0; tops.len()];
    for (&block, &top) in order.iter().zip(tops) {
        by_block[block] = top;
    }
    by_block
}

/// Tops of blocks in an order from top to bottom: the least sum of squared distances from where
/// each would lie by itself. `equal` sets a height and port for all.
///
/// With the heights of the blocks above taken off, the tops must only not fall: neighbours that
/// would are pooled at their mean.
fn settled(
    blocks: &[Block],
    order: &[usize],
    equal: Option<(f64, f64)>,
    top: f64,
    bottom: f64,
) -> Vec<f64> {
    let mut pools: Vec<(f64, usize)> = Vec::new();
    let mut above = 0.0;
    let mut offsets = Vec::new();
    for &index in order {
        let block = blocks[index];
        let (height, port) = equal.unwrap_or((block.height, block.port));
        offsets.push(above);
        let mut pool = (block.target.y - port - above, 1);
        while let Some(&(mean, count)) = pools.last()
            && mean > pool.0
        {
            pools.pop();
            let (a, b) = (f64_of(count), f64_of(pool.1));
            pool = ((mean * a + pool.0 * b) / (a + b), count + pool.1);
        }
        pools.push(pool);
        above += height + GAP;
    }
    let highest = (bottom - (above - GAP)).max(top);
    let tops = pools
        .into_iter()
        .flat_map(|(mean, count)| std::iter::repeat_n(mean.clamp(top, highest), count));
    tops.zip(offsets).map(|(top, above)| top + above).collect()
}

#[expect(clippy::cast_precision_loss, reason = "a count of labels")]
const fn f64_of(count: usize) -> f64 {
    count as f64
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::at;
    use proptest::prelude::*;

    fn block(x: f64, y: f64, height: f64) -> Block {
        Block {
            target: at(x, y),
            height,
            port: 1.0,
        }
    }

    #[test]
    fn blocks_with_room_lie_level_with_their_targets() {
        let blocks = [block(5.0, 40.0, 6.0), block(9.0, 10.0, 6.0)];
        assert_eq!(arrange(&blocks, 0.0, 0.0, 60.0), [39.0, 9.0]);
    }

    #[test]
    fn crowded_blocks_make_room_on_both_sides() {
        let blocks = [block(5.0, 30.0, 6.0), block(6.0, 30.2, 6.0)];
        let tops = arrange(&blocks, 0.0, 0.0, 60.0);
        assert!((tops[1] - tops[0] - 6.0 - GAP).abs() < 1e-9);
        assert!((tops[0] + tops[1] - 29.0 - 29.2).abs() < 1e-9);
    }

    /// Worked by hand: pushed up by the end of the room, the lower target's line would pass above
    /// the upper target, so the two change places.
    #[test]
    fn lines_that_would_cross_change_places() {
        let blocks = [block(3.0, 20.0, 6.0), block(5.0, 20.5, 6.0)];
        let tops = arrange(&blocks, 0.0, 0.0, 15.0);
        assert!(tops[1] < tops[0]);
    }

    proptest! {
        #[test]
        fn no_blocks_touch_and_no_lines_cross(
            places in prop::collection::vec((0.5..60.0_f64, -20.0..120.0_f64, 2.0..18.0_f64), 0..12),
            room in 10.0..160.0_f64,
        ) {
            let blocks: Vec<Block> = places.iter().map(|&(x, y, h)| block(x, y, h)).collect();
            let tops = arrange(&blocks, 0.0, 0.0, room);
            let line = |i: usize| (blocks[i].target, at(0.0, tops[i] + blocks[i].port));
            for i in 0..blocks.len() {
                prop_assert!(tops[i] >= -1e-9);
                for j in 0..i {
                    let apart = tops[i] >= tops[j] + blocks[j].height + GAP - 1e-9
                        || tops[j] >= tops[i] + blocks[i].height + GAP - 1e-9;
                    prop_assert!(apart);
                    prop_assert!(!cross(line(i), line(j)));
                }
            }
        }
    }
}
