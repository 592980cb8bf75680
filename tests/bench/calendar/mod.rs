//! How long a plan takes; and six weeks to a date: what players know cold on the day, by the calendar's plan and by others,
//! from the same seeds.

mod families;
mod policies;

use crate::{
    dice::Dice,
    figure::{Figure, Sheet, median, milliseconds},
};
use families::{Family, Learned};
use policies::{BLOCK, DATE, Known, Policy};
use tailfirst::calendar::{
    Forecast,
    plan::{Bounds, Offer, Plan, Share, Sitting, SoFar},
};

/// Players of each family, and snippets of each.
const PLAYERS: u64 = 60;
const SNIPPETS: usize = 20;

pub fn measure(sheet: &mut Sheet) {
    sheet.add(Figure { name: "plan", value: plan(), unit: "us", target: 300.0 });
    study(sheet);
}

/// The median time of a plan of 40 minutes for twenty snippets with three blocks each, in microseconds.
fn plan() -> f64 {
    let mut dice = Dice::of(1, 1);
    let mut offer = |snippet: usize| {
        let share = Share { rest: 15, blocks_left: 3, like: vec![(snippet + 7) % SNIPPETS], ..Share::default() };
        let (minutes, worth) = (dice.whole(3, 7) as u16, dice.roll());
        Offer { share, minutes, gains: vec![worth, 0.6 * worth, 0.3 * worth], ..Offer::default() }
    };
    let offers: Vec<Offer> = (0..SNIPPETS).map(&mut offer).collect();
    let sitting = Sitting::of(Bounds::usual(40), &offers, SoFar::default()).expect("a sound sitting");
    median((0..101).map(|_| 1e3 * milliseconds(|| Plan::of(&sitting))).collect())
}

fn study(sheet: &mut Sheet) {
    println!(
        "share of {SNIPPETS} snippets that are clean at a cold try after {DATE} days of 40 minutes, {PLAYERS} players"
    );
    let names: Vec<String> = Policy::ALL.iter().map(|policy| format!("{:>15}", policy.name())).collect();
    println!("{:24}{}", "", names.join(""));
    let (mut led_by_others, mut behind) = (0, 0f64);
    for family in Family::ALL {
        let shares = Policy::ALL.map(|policy| share(family, policy));
        let row: Vec<String> = shares.iter().map(|share| format!("{:>14.1}%", 100.0 * share)).collect();
        println!("{:24}{}", family.name(), row.join(""));
        let [own, mind, others @ ..] = shares;
        led_by_others += usize::from(others.iter().any(|other| *other > own));
        behind = behind.max(100.0 * (1.0 - own / mind));
    }
    println!("snippets clean on the date, by the 80 % band foretold three weeks before: below, within, above");
    for family in Family::ALL {
        let [below, within, above] = calibration(family).map(|share| 100.0 * share);
        println!("{:24}{below:>14.1}%{within:>14.1}%{above:>14.1}%", family.name());
    }
    sheet.add(Figure { name: "calendar-led-by-others", value: led_by_others as f64, unit: "families", target: 1.0 });
    sheet.add(Figure { name: "calendar-behind-mind-reader", value: behind, unit: "%", target: 10.0 });
}

/// The mean chance over all players and snippets that a cold try on the date is clean.
fn share(family: Family, policy: Policy) -> f64 {
    let chance = |player| on_the_date(family, policy, player, None).0;
    (0..PLAYERS).map(chance).sum::<f64>() / PLAYERS as f64
}

/// How the number of snippets that are clean on the date lies to the band foretold three weeks before: the share of
/// players below it, within, and above.
fn calibration(family: Family) -> [f64; 3] {
    let mut shares = [0.0; 3];
    for player in 0..PLAYERS {
        let (_, clean, foretold) = on_the_date(family, Policy::Calendar, player, Some(DATE / 2));
        let (low, high) = foretold.expect("everything was played by then").clean;
        let place = if clean < low {
            0
        } else if clean > high {
            2
        } else {
            1
        };
        shares[place] += 1.0 / PLAYERS as f64;
    }
    shares
}

/// The mean chance that a cold try on the date is clean, how many are, and what was foretold before a day.
fn on_the_date(family: Family, policy: Policy, player: u64, asked: Option<u32>) -> (f64, usize, Option<Forecast>) {
    let mut nature = Dice::of(player, family as u64);
    let level = nature.around(6.0, 0.7);
    let mut truth: Vec<Learned> = (0..SNIPPETS).map(|_| Learned::new(family, level, &mut nature)).collect();
    let mut known = vec![Known::default(); SNIPPETS];
    let mut luck: Vec<Dice> = (0..SNIPPETS as u64).map(|snippet| Dice::of(player, 1_000 + snippet)).collect();
    let mut foretold = None;
    for day in 0..DATE {
        if asked == Some(day) {
            foretold = policies::foretold(&known, player);
        }
        for snippet in policies::day(policy, day, &known, &truth) {
            let (learned, luck) = (&mut truth[snippet], &mut luck[snippet]);
            let kept = learned.practise(day, f64::from(BLOCK), luck);
            known[snippet].hear(day, kept, learned.heard(luck));
        }
    }
    let clean = truth.iter().zip(&mut luck).map(|(learned, luck)| luck.happens(learned.cold(DATE)));
    let clean = clean.filter(|clean| *clean).count();
    (truth.iter().map(|learned| learned.cold(DATE)).sum::<f64>() / SNIPPETS as f64, clean, foretold)
}
