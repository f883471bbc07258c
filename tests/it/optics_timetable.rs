//! Timetables against trying every order.

use proptest::prelude::*;
use trayside::clock::schedule::{BUDGET, Preparation, Stage, Step, TrayLine};
use trayside::units::scalar::Time;

fn seconds(value: f64) -> Time {
    Time::from_seconds(value)
}

/// The shortest end over all orders in which steps are started as early as they can be. For steps without a longest wait one of
/// these is best.
fn by_trying(preparation: &Preparation) -> f64 {
    let n = preparation.steps.len();
    let mut best = f64::INFINITY;
    let mut starts: Vec<Option<f64>> = vec![None; n];
    place(preparation, &mut starts, &mut best);
    best
}

fn place(preparation: &Preparation, starts: &mut Vec<Option<f64>>, best: &mut f64) {
    let length = |at: usize| preparation.steps[at].length.seconds();
    if starts.iter().all(Option::is_some) {
        let end = (0..starts.len())
            .map(|at| starts[at].unwrap() + length(at))
            .fold(0.0, f64::max);
        *best = best.min(end);
        return;
    }
    for at in 0..starts.len() {
        let step = &preparation.steps[at];
        if starts[at].is_some() || step.after.iter().any(|(before, _)| starts[*before].is_none()) {
            continue;
        }
        let ready = step
            .after
            .iter()
            .map(|(before, _)| starts[*before].unwrap() + length(*before));
        let ready = ready.fold(0.0, f64::max);
        let mut moments: Vec<f64> = (0..starts.len())
            .filter_map(|other| starts[other].map(|start| start + length(other)))
            .filter(|end| *end > ready)
            .collect();
        moments.push(ready);
        moments.sort_by(f64::total_cmp);
        let free = |from: f64| {
            let to = from + length(at);
            step.uses.iter().all(|thing| {
                // All lengths are whole seconds, so every half second is enough to look at.
                let mut moment = from + 0.5;
                while moment < to {
                    let running = (0..starts.len())
                        .filter(|other| preparation.steps[*other].uses.contains(thing))
                        .filter_map(|other| starts[other].map(|start| (start, start + length(other))))
                        .filter(|(start, end)| *start < moment && moment < *end)
                        .count();
                    if running >= preparation.things[*thing] as usize {
                        return false;
                    }
                    moment += 1.0;
                }
                true
            })
        };
        let start = moments.into_iter().find(|moment| free(*moment)).unwrap();
        starts[at] = Some(start);
        place(preparation, starts, best);
        starts[at] = None;
    }
}

fn preparations() -> impl Strategy<Value = Preparation> {
    let step = (
        1_u32..9,
        prop::collection::vec(any::<prop::sample::Index>(), 0..2),
        0_usize..4,
    );
    (prop::collection::vec(step, 1..7), 1_u32..3).prop_map(|(steps, kettles)| Preparation {
        steps: steps
            .iter()
            .enumerate()
            .map(|(at, (length, before, uses))| Step {
                length: seconds(f64::from(*length)),
                after: before
                    .iter()
                    .filter(|_| at > 0)
                    .map(|index| (index.index(at.max(1)), None))
                    .collect(),
                uses: match uses {
                    0 => vec![],
                    1 => vec![0],
                    2 => vec![1],
                    _ => vec![0, 1],
                },
            })
            .collect(),
        things: vec![1, kettles],
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn no_order_beats_the_timetable(preparation in preparations()) {
        let (starts, end, bound) = preparation.timetable(BUDGET).unwrap();
        prop_assert!(preparation.holds(&starts));
        prop_assert_eq!(end, bound);
        prop_assert_eq!(end.seconds(), by_trying(&preparation));
    }

    #[test]
    fn every_timetable_keeps_the_rules(
        sheets in 1_u32..6, move_s in 1_u32..15, hands in 1_u32..3,
        stages in prop::collection::vec((5_u32..120, prop::option::of(0_u32..60), 1_u32..4, 0_u32..10), 1..5),
    ) {
        let line = TrayLine {
            sheets,
            move_time: seconds(f64::from(move_s)),
            hands,
            stages: stages.iter().map(|(stay, slack, places, drain)| Stage {
                stay: seconds(f64::from(*stay)),
                slack: slack.map(|slack| seconds(f64::from(slack))),
                places: *places,
                drain: seconds(f64::from(*drain)),
            }).collect(),
        };
        let found = line.timetable(2000).unwrap();
        prop_assert!(line.holds(&found.moves));
        prop_assert!(found.bound <= found.end);
        // One sheet alone takes its stays, its moves and its drains.
        let alone: f64 = stages.iter().map(|(stay, _, _, drain)| f64::from(*stay + *drain + move_s)).sum();
        prop_assert!(found.bound.seconds() >= alone + f64::from(move_s) - 1e-9);
    }
}

#[test]
fn an_evening_with_twelve_sheets_has_a_timetable() {
    let stage = |stay: f64, slack: Option<f64>, places| Stage {
        stay: seconds(stay),
        slack: slack.map(seconds),
        places,
        drain: Time::ZERO,
    };
    let line = TrayLine {
        sheets: 12,
        move_time: seconds(8.0),
        hands: 1,
        stages: vec![
            stage(180.0, Some(20.0), 2),
            stage(30.0, Some(30.0), 1),
            stage(120.0, Some(120.0), 3),
            stage(240.0, None, 12),
        ],
    };
    let found = line.timetable(BUDGET).unwrap();
    assert!(line.holds(&found.moves));
    println!(
        "twelve sheets: {} s, bound {} s",
        found.end.seconds(),
        found.bound.seconds()
    );
    assert!(found.end / found.bound < 1.2);
}
