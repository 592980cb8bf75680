use crate::happenings::{Lesson, snippet, verdict};
use tailfirst::method::{Direction, Move, Settings, Strictness};
#[test]
fn explore() {
    for strictness in [Strictness::Lenient, Strictness::Usual, Strictness::Strict] {
        for script in [
            "CCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCCC",
            "CCCCCCCCCCCCCCCCCCCNNNNNNCCCCCCCCCCNNNNNCCCCCCCCCNNNNNCCCCCCC",
            "NNNNNNNNNNNNNNNNNNNNNN",
            "CNCNCNCNCNCNCNCN",
            "CCCCNCCCCCCCC",
            "NCCCCCCCCCC",
            "CCNCCCCCCCCNCCCCCC",
        ] {
            let mut lesson =
                Lesson::new(&snippet("BBBB", 3, Direction::TowardGoal), Settings { strictness, ..Settings::default() });
            let mut run = String::new();
            for letter in script.chars() {
                run.push(letter);
                let a = lesson.play(verdict(letter));
                if a.led_by != Move::Again {
                    print!("{run}>{:?}({:.2}) ", a.led_by, a.sureness.now.mean);
                    run.clear();
                }
                if a.led_by == Move::Leave {
                    print!("{:?}", a.reason);
                    break;
                }
            }
            println!("{strictness:?} rest {run}");
        }
    }
}
