//! Several openings in a field by pencil and paper: rows, and whether any arrangement fits at all.
//!
//! Given a job, it gives the field and the places of its openings by core/GEOMETRY.md, "Multi-slot", written
//! down from its text. Whether a packing exists is settled by trying every pair of orders. It asks the engine nothing.

use traywright_engine::job::Job;

/// Least card to what stands behind an edge, and between two openings.
// Source: core/GEOMETRY.md, "Letters".
const EDGE_WEB: f64 = 3.0;
pub(crate) const WEB: f64 = 6.0;

/// Lower left corner and size of the field in the deck's flat frame.
// Source: core/GEOMETRY.md, "Multi-slot: the field".
pub(crate) fn field(job: &Job) -> [[f64; 2]; 2] {
    let (t, h, g) = (job.board.caliper.mm(), job.board.hinge(), job.fit.play.mm());
    let (outer, inner) = (t / 2.0 + h, t / 2.0 - h);
    let border = [3.0 * t + g + inner + EDGE_WEB, t + inner + EDGE_WEB];
    let outside = [job.box_size.length.mm(), job.box_size.width.mm()]
        .map(|side| side - job.fit.around_tray.mm());
    let size = [0, 1].map(|axis| outside[axis] - 2.0 * border[axis]);
    [border.map(|border| border - outer), size]
}

/// Sizes of the openings, as the job writes its items.
pub(crate) fn slots(job: &Job) -> Vec<[f64; 2]> {
    let fit = job.fit.around_item.mm();
    let slot =
        |item: &traywright_engine::job::Item| [item.length.mm() + fit, item.width.mm() + fit];
    job.items.iter().map(slot).collect()
}

/// All best ways in rows, as middles in the deck's frame; none when no rows fit.
// Source: core/GEOMETRY.md, "Multi-slot: the arrangement": the largest least gap, then the fewest rows. Of those
// that are left it prefers none.
pub(crate) fn in_rows(job: &Job) -> Vec<Vec<[f64; 2]>> {
    let ([corner, size], slots) = (field(job), slots(job));
    let mut found: Vec<(f64, usize, Vec<[f64; 2]>)> = Vec::new();
    for breaks in 0..1_u32 << (slots.len() - 1) {
        let mut rows: Vec<Vec<[f64; 2]>> = vec![Vec::new()];
        for (index, slot) in slots.iter().enumerate() {
            rows.last_mut().expect("a row").push(*slot);
            if index + 1 < slots.len() && breaks & (1 << index) != 0 {
                rows.push(Vec::new());
            }
        }
        if shortest_of(&rows, size) >= 0.0 {
            let (gap, middles) = middles(&rows, corner, size);
            found.push((gap, rows.len(), middles));
        }
    }
    let widest = found
        .iter()
        .map(|one| one.0)
        .fold(f64::NEG_INFINITY, f64::max);
    found.retain(|one| one.0 > widest - 1e-6);
    let fewest = found.iter().map(|one| one.1).min();
    found.retain(|one| Some(one.1) == fewest);
    found.into_iter().map(|one| one.2).collect()
}

/// What the best rows have to spare, below 0 what they lack, in the direction in which it is least.
pub(crate) fn spare_in_rows(job: &Job) -> f64 {
    let ([_, size], slots) = (field(job), slots(job));
    let mut best = f64::NEG_INFINITY;
    for breaks in 0..1_u32 << (slots.len() - 1) {
        let mut rows: Vec<Vec<[f64; 2]>> = vec![Vec::new()];
        for (index, slot) in slots.iter().enumerate() {
            rows.last_mut().expect("a row").push(*slot);
            if index + 1 < slots.len() && breaks & (1 << index) != 0 {
                rows.push(Vec::new());
            }
        }
        best = best.max(shortest_of(&rows, size));
    }
    best
}

fn heights(rows: &[Vec<[f64; 2]>]) -> Vec<f64> {
    let highest = |row: &Vec<[f64; 2]>| row.iter().map(|slot| slot[1]).fold(0.0, f64::max);
    rows.iter().map(highest).collect()
}

fn shortest_of(rows: &[Vec<[f64; 2]>], size: [f64; 2]) -> f64 {
    let spare = |sizes: &[f64], room: f64| {
        room - sizes.iter().sum::<f64>() - (sizes.len() - 1) as f64 * WEB
    };
    let along = rows.iter().map(|row| {
        let lengths: Vec<f64> = row.iter().map(|slot| slot[0]).collect();
        spare(&lengths, size[0])
    });
    along.fold(spare(&heights(rows), size[1]), f64::min)
}

/// The least gap, and the middle of each slot.
fn middles(rows: &[Vec<[f64; 2]>], corner: [f64; 2], size: [f64; 2]) -> (f64, Vec<[f64; 2]>) {
    let heights = heights(rows);
    let (mut least, bottoms) = spread(&heights, size[1]);
    let mut middles = Vec::new();
    for ((row, bottom), height) in rows.iter().zip(bottoms).zip(&heights) {
        let lengths: Vec<f64> = row.iter().map(|slot| slot[0]).collect();
        let (gap, lefts) = spread(&lengths, size[0]);
        least = least.min(gap);
        for (left, length) in lefts.into_iter().zip(&lengths) {
            middles.push([
                corner[0] + left + length / 2.0,
                corner[1] + bottom + height / 2.0,
            ]);
        }
    }
    (least, middles)
}

fn spread(sizes: &[f64], room: f64) -> (f64, Vec<f64>) {
    let left = room - sizes.iter().sum::<f64>();
    let gap = left / (sizes.len() + 1) as f64;
    let between = gap.max(WEB);
    let border = (left - (sizes.len() - 1) as f64 * between) / 2.0;
    let before = |count: usize| sizes[..count].iter().sum::<f64>() + count as f64 * between;
    (
        gap,
        (0..sizes.len())
            .map(|count| border + before(count))
            .collect(),
    )
}

/// Whether the openings go into a field that is larger by `more` in any arrangement, those turned that may be.
pub(crate) fn goes_in(job: &Job, more: f64) -> bool {
    let ([_, size], slots) = (field(job), slots(job));
    let room = size.map(|side| side + WEB + more);
    let turning: Vec<usize> = (0..slots.len())
        .filter(|&item| job.items[item].turns)
        .collect();
    (0..1_u32 << turning.len()).any(|turned| {
        let mut grown: Vec<[f64; 2]> = slots
            .iter()
            .map(|slot| slot.map(|side| side + WEB))
            .collect();
        for (bit, &item) in turning.iter().enumerate() {
            if turned & (1 << bit) != 0 {
                grown[item].reverse();
            }
        }
        some_pair_of_orders_fits(&grown, room)
    })
}

/// Source: Murata, Fujiyoshi, Nakatake and Kajitani, "VLSI module placement based on rectangle-packing by the sequence-pair",
/// 1996: every packing belongs to a pair of orders. Of two rectangles in the same order in both the later one lies to the
/// right, of two in opposite orders the one that is later in the second above.
fn some_pair_of_orders_fits(sizes: &[[f64; 2]], room: [f64; 2]) -> bool {
    let area: f64 = sizes.iter().map(|size| size[0] * size[1]).sum();
    if area > room[0] * room[1] * (1.0 + 1e-12) {
        return false;
    }
    let orders = orders(sizes.len());
    // Names mean nothing: one of the two orders may be fixed if the sizes are put into every order instead.
    orders.iter().any(|names| {
        let sizes: Vec<[f64; 2]> = names.iter().map(|&name| sizes[name]).collect();
        orders.iter().any(|places| fits(&sizes, places, room))
    })
}

/// Whether rectangles fit that stand in the first order as they are listed, and at these places of the second.
fn fits(sizes: &[[f64; 2]], places: &[usize], room: [f64; 2]) -> bool {
    let mut ends = vec![[0.0_f64; 2]; sizes.len()];
    let mut highest = vec![0.0_f64; sizes.len()];
    for one in 0..sizes.len() {
        let mut left = 0.0_f64;
        for other in 0..one {
            if places[other] < places[one] {
                left = left.max(ends[other][0]);
            }
        }
        ends[one][0] = left + sizes[one][0];
        if ends[one][0] > room[0] + 1e-9 {
            return false;
        }
    }
    for one in (0..sizes.len()).rev() {
        let mut below = 0.0_f64;
        for other in one + 1..sizes.len() {
            if places[other] < places[one] {
                below = below.max(highest[other]);
            }
        }
        highest[one] = below + sizes[one][1];
        if highest[one] > room[1] + 1e-9 {
            return false;
        }
    }
    true
}

/// All orders of so many things.
fn orders(count: usize) -> Vec<Vec<usize>> {
    let mut all = vec![Vec::new()];
    for next in 0..count {
        all = all
            .into_iter()
            .flat_map(|order: Vec<usize>| {
                (0..=order.len()).map(move |place| {
                    let mut longer = order.clone();
                    longer.insert(place, next);
                    longer
                })
            })
            .collect();
    }
    all
}
