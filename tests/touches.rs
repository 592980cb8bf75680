//! No touch acts twice: whatever the browser tells of pointers, in whatever order.

use proptest::prelude::*;
use tailfirst::touches::{Pointer, PointerKind, Touches};

fn finger(id: i32) -> Pointer {
    Pointer { id, kind: PointerKind::Touch, primary: id == 1 }
}

const HERE: (f64, f64) = (400.0, 700.0);
const FAR: (f64, f64) = (900.0, 100.0);

#[test]
fn what_acted_going_down_does_not_act_by_its_click_whatever_lies_there_then() {
    for held in [30.0, 100.0, 200.0, 800.0] {
        for now_there in [Some("clean"), Some("undo"), None] {
            let mut touches = Touches::default();
            touches.goes_down(finger(1), Some("clean"), HERE, 0.0);
            touches.acts(1, 0.0);
            touches.comes_up(1);
            assert!(!touches.may_click(Some(1), now_there, held));
            assert!(!touches.may_click(None, now_there, held), "the browser need not tell whose click it is");
        }
    }
}

#[test]
fn a_click_counts_on_the_control_its_touch_began_on_and_on_no_other() {
    let mut touches = Touches::default();
    touches.goes_down(finger(1), Some("stop"), HERE, 0.0);
    touches.comes_up(1);
    assert!(!touches.may_click(Some(1), Some("good enough"), 80.0));
    assert!(touches.may_click(Some(1), Some("stop"), 80.0));
    touches.goes_down(finger(1), None, HERE, 1_000.0);
    assert!(!touches.may_click(Some(1), Some("stop"), 1_080.0), "it began beside every control");
}

#[test]
fn a_second_knock_so_soon_and_near_is_a_bounce_unless_it_is_on_the_same_control() {
    let second = |spot, after, on| {
        let mut touches = Touches::default();
        touches.goes_down(finger(1), Some("clean"), HERE, 0.0);
        touches.acts(1, 0.0);
        touches.comes_up(1);
        touches.goes_down(finger(1), Some(on), spot, after);
        touches.comes_up(1);
        touches.may_click(Some(1), Some(on), after + 50.0)
    };
    assert!(!second(HERE, 200.0, "good enough"));
    assert!(second(HERE, 400.0, "good enough"), "the player has seen the screen that followed");
    assert!(second(FAR, 200.0, "stop"), "another place is no bounce");
    assert!(second(HERE, 200.0, "clean"), "who knows the control tells its bounces");
}

#[test]
fn no_second_finger_acts_while_one_that_acted_is_still_down() {
    let mut touches = Touches::default();
    touches.goes_down(finger(1), Some("not yet"), HERE, 0.0);
    assert!(touches.may_act(1));
    touches.acts(1, 0.0);
    touches.goes_down(finger(2), Some("clean"), FAR, 600.0);
    assert!(!touches.may_act(2));
    touches.comes_up(1);
    assert!(touches.may_act(2));
}

#[test]
fn a_finger_whose_coming_up_was_never_told_holds_nothing_up() {
    let mut touches = Touches::default();
    touches.goes_down(finger(1), Some("clean"), HERE, 0.0);
    touches.acts(1, 0.0);
    touches.goes_down(Pointer { id: 7, kind: PointerKind::Touch, primary: true }, Some("clean"), HERE, 2_000.0);
    assert!(touches.may_act(7));
}

/// What a browser may tell: pointers 0..3 on controls 0..3.
#[derive(Clone, Debug)]
enum Told {
    Down(i32, u8),
    Up(i32),
    Click(i32, u8),
}

fn told() -> impl Strategy<Value = Told> {
    prop_oneof![
        (0..3, 0_u8..3).prop_map(|(id, on)| Told::Down(id, on)),
        (0..3).prop_map(Told::Up),
        (0..3, 0_u8..3).prop_map(|(id, on)| Told::Click(id, on)),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// Control 0 acts as a finger goes down, the others by their click.
    #[test]
    fn each_touch_acts_at_most_on_one_control(all in prop::collection::vec(told(), 1..40)) {
        let mut touches = Touches::default();
        let mut acted_on: [Option<Vec<u8>>; 3] = Default::default();
        for (step, told) in all.into_iter().enumerate() {
            let now = 1_000.0 * step as f64;
            match told {
                Told::Down(id, on) => {
                    if id == 0 {
                        acted_on = Default::default();
                    }
                    acted_on[id as usize] = Some(Vec::new());
                    touches.goes_down(Pointer { id, kind: PointerKind::Touch, primary: id == 0 }, Some(on), HERE, now);
                    if on == 0 && touches.may_act(id) {
                        touches.acts(id, now);
                        acted_on[id as usize].iter_mut().for_each(|acted| acted.push(on));
                    }
                }
                Told::Up(id) => touches.comes_up(id),
                Told::Click(id, on) => {
                    let of_a_touch = acted_on[id as usize].as_mut().filter(|_| on != 0);
                    if let Some(acted) = of_a_touch && touches.may_click(Some(id), Some(on), now) {
                        acted.push(on);
                    }
                }
            }
            for on in acted_on.iter().flatten() {
                prop_assert!(on.windows(2).all(|pair| pair[0] == pair[1]), "one touch acted on {on:?}");
            }
        }
    }
}
