//! Locks on the same decks.

use super::*;

fn lock(key: &'static str, value: f64) -> Lock {
    Lock { key, value }
}

/// Locks on the present values of `keys`.
fn locked(design: &Design, keys: &[&'static str]) -> Vec<Lock> {
    keys.iter().map(|key| lock(key, value(key, design).unwrap())).collect()
}

#[track_caller]
fn check_held(design: &Design, locks: &[Lock]) {
    for lock in locks {
        let miss = (value(lock.key, design).unwrap() - lock.value).abs();
        assert!(miss <= find(lock.key).unwrap().accuracy().met, "{}: {miss}", lock.key);
    }
}

#[test]
fn locks_hold_while_a_node_is_moved() {
    for deck in demo::all() {
        let keys =
            ["overall-width", "overall-length", "nose-kick-length", "nose-kick-taper", "nose-tip-radius"];
        let locks = locked(&deck, &keys);
        for (node, dx, dy) in
            [(1, -3.0, 1.5), (2, 4.0, -2.0), (deck.shape().outline.nodes.len() - 1, 7.0, 0.0)]
        {
            let to = deck.shape().outline.nodes[node].place + kurbo::Vec2::new(dx, dy);
            let moved = deck.apply(&Edit::MoveNode { node, to }).unwrap();
            let held = hold(&moved, &locks).unwrap();
            check_held(&held, &locks);
        }
    }
}

#[test]
fn a_waist_and_both_rails_are_held_together() {
    for (deck, [rail, kick]) in [(demo::dunlin(), [3, 6]), (cubics::dunlin(), [1, 3])] {
        let keys = ["waist-width", "waist-length", "rail-run-fore", "overall-width", "nose-kick-taper"];
        let locks = locked(&deck, &keys);
        for (node, to) in [(0, (0.0, 89.5)), (rail, (90.0, 95.4)), (kick, (243.0, 89.5))] {
            let moved = deck.apply(&Edit::MoveNode { node, to: to.into() }).unwrap();
            let held = hold(&moved, &locks).unwrap();
            check_held(&held, &locks);
        }
    }
}

#[test]
fn locks_that_say_the_same_twice_are_held() {
    let deck = demo::dunlin();
    let locks = locked(
        &deck,
        &["nose-kick-length", "tail-kick-length", "overall-length", "plan-length", "wheelbase"],
    );
    let tip = deck.shape().outline.nodes.len() - 1;
    let moved = deck.apply(&Edit::MoveNode { node: tip, to: (358.0, 0.0).into() }).unwrap();
    let held = hold(&moved, &locks).unwrap();
    check_held(&held, &locks);
}

#[test]
fn a_design_that_holds_its_locks_comes_back_as_it_is() {
    for deck in demo::all() {
        let locks = locked(&deck, &["overall-width", "overall-length", "wheelbase"]);
        assert_eq!(hold(&deck, &locks).unwrap(), deck);
        assert_eq!(hold(&deck, &[]).unwrap(), deck);
    }
}

#[test]
fn locks_that_contradict_one_another_are_refused_with_the_nearest() {
    let deck = demo::turnstone();
    // An angle has far smaller numbers: it is not named for that.
    let mut locks = locked(
        &deck,
        &["nose-kick-length", "tail-kick-length", "wheelbase", "overall-length", "nose-kick-taper"],
    );
    locks[3].value += 10.0;
    let refused = hold(&deck, &locks).unwrap_err();
    assert!((refused.nearest().unwrap() - 812.8).abs() < 0.02, "{refused}");
    assert_eq!(refused.quantity().unwrap().key, "overall-length");
}

#[test]
fn a_lock_on_what_a_shape_does_not_have_is_refused_with_words() {
    let refused = hold(&demo::turnstone(), &[lock("waist-width", 180.0)]).unwrap_err();
    assert!(matches!(refused, Unmet::Absent { .. }), "{refused}");
    let nan = hold(&demo::turnstone(), &[lock("overall-width", f64::NAN)]).unwrap_err();
    assert_eq!(nan.nearest(), Some(209.55));
}

#[test]
fn an_edit_that_a_lock_forbids_names_the_nearest_value_that_could_be_held() {
    let deck = demo::turnstone();
    let locks = locked(&deck, &["overall-width", "overall-length", "nose-kick-taper"]);
    let deck = deck.with_locks(locks).unwrap();
    let edit = Edit::MoveNode { node: 11, to: (185.0, 73.3).into() };
    let Err(Refusal::Unmet(unmet)) = deck.apply(&edit) else { panic!("it is held") };
    let (key, nearest) = (unmet.quantity().unwrap().key, unmet.nearest().unwrap());
    let kept = value(key, &deck).unwrap();
    assert!((nearest - kept).abs() > 0.1, "{key}: {nearest} where {kept} is kept");
    // In a drag the nearest place is looked for, not the nearest value.
    let Err(Refusal::Unmet(unmet)) = deck.apply_on_the_way(&edit, None) else { panic!("it is held") };
    assert!((unmet.nearest().unwrap() - kept).abs() < 1e-3);
}

#[test]
fn a_drag_with_the_slopes_at_grab_holds_what_fresh_ones_hold() {
    let deck = demo::turnstone();
    assert!(Slopes::of(&deck).is_none(), "nothing is held");
    let locks = locked(&deck, &["overall-width", "overall-length", "nose-kick-taper"]);
    let deck = deck.with_locks(locks).unwrap();
    let slopes = Slopes::of(&deck).unwrap();
    for (node, old) in deck.shape().outline.nodes.iter().enumerate() {
        for way in [(9.0, 0.0), (0.0, 9.0), (-9.0, 0.0), (0.0, -9.0), (14.0, -14.0), (-14.0, 14.0)] {
            let edit = Edit::MoveNode { node, to: old.place + kurbo::Vec2::from(way) };
            let [warm, cold] =
                [Some(&slopes), None].map(|slopes| deck.apply_on_the_way(&edit, slopes).unwrap());
            check_held(&warm, deck.locks());
            let pairs = warm.shape().outline.nodes.iter().zip(&cold.shape().outline.nodes);
            let apart = pairs.map(|(a, b)| (a.place - b.place).hypot()).fold(0.0, f64::max);
            assert!(apart < 2e-3, "node {node} by {way:?}: {apart} mm apart");
        }
        // Far away another shape may be found than with fresh slopes, but none that does not hold.
        for way in [(-70.0, 0.0), (0.0, -70.0)] {
            let edit = Edit::MoveNode { node, to: old.place + kurbo::Vec2::from(way) };
            if let Ok(far) = deck.apply_on_the_way(&edit, Some(&slopes)) {
                check_held(&far, deck.locks());
            }
        }
    }
}

#[test]
fn random_locks_never_panic() {
    let mut random = Random(7);
    let mut held = 0;
    for _ in 0..150 {
        let decks = decks();
        let deck = &decks[random.below(decks.len())];
        let mut locks = Vec::new();
        for _ in 0..1 + random.below(5) {
            let key = DIMENSIONS[random.below(DIMENSIONS.len())].key;
            let share = 0.98 + 0.04 * random.next();
            locks.extend(value(key, deck).map(|value| lock(key, value * share)));
        }
        if let Ok(design) = hold(deck, &locks) {
            check_held(&design, &locks);
            held += 1;
        }
    }
    assert!(held > 50, "{held} of 150 held");
}
