//! The text of a score as a tree: what it is called, who wrote it, and which measures make which part.

use crate::music::musicxml::{
    error::{MOST_BARS, MOST_ELEMENTS, MOST_NOTES, ReadError},
    lengths::decimal,
};
use roxmltree::{Document, Error, Node, ParsingOptions};
use std::collections::HashMap;

/// Far more than any element of a score carries; the parser's time grows with its square.
const MOST_ATTRIBUTES: usize = 256;
/// Far more than any score declares; the parser's memory grows with its square.
const MOST_NAMESPACES: usize = 256;
/// Longest title or name that is kept, in letters.
const LONGEST_NAME: usize = 200;

/// The tree of a text that is safe to parse.
pub(super) fn parse(text: &str) -> Result<Document<'_>, ReadError> {
    // The parser wants the declaration at the very beginning.
    let text = text.trim_start();
    if !text.starts_with('<') {
        return Err(ReadError::NotAScore);
    }
    refuse_excess(text)?;
    if let Some((before, _)) = text.split_once("<!ENTITY") {
        return Err(ReadError::OwnEntities { line: last_line(before) });
    }
    let options = ParsingOptions { allow_dtd: true, nodes_limit: MOST_ELEMENTS as u32, entity_resolver: None };
    Document::parse_with_options(text, options).map_err(|error| match error {
        Error::NodesLimitReached => ReadError::TooManyElements,
        Error::NoRootNode => ReadError::NotAScore,
        Error::UnclosedRootNode | Error::UnexpectedEndOfStream => ReadError::DamagedXml { line: last_line(text) },
        damaged => ReadError::DamagedXml { line: damaged.pos().row },
    })
}

/// Refuses, before building a tree, a text with more elements than are read, or with absurdly many attributes or
/// namespaces in an element.
fn refuse_excess(text: &str) -> Result<(), ReadError> {
    let (mut elements, mut measures, mut notes) = (0, 0, 0);
    for tag in text.split('<').skip(1).filter(|tag| !tag.starts_with(['!', '?', '/'])) {
        elements += 1;
        measures += usize::from(is_called(tag, "measure"));
        notes += usize::from(is_called(tag, "note"));
        if tag.bytes().filter(|byte| *byte == b'=').count() > MOST_ATTRIBUTES {
            return Err(ReadError::NotAScore);
        }
    }
    match () {
        // In a score by measure each measure is counted once for all parts.
        () if measures > MOST_BARS => Err(ReadError::TooManyBars),
        () if notes > MOST_NOTES => Err(ReadError::TooManyNotes),
        () if elements > MOST_ELEMENTS => Err(ReadError::TooManyElements),
        () if text.matches("xmlns").count() > MOST_NAMESPACES => Err(ReadError::NotAScore),
        () => Ok(()),
    }
}

fn is_called(tag: &str, name: &str) -> bool {
    tag.strip_prefix(name).is_some_and(|rest| rest.starts_with([' ', '>', '/', '\t', '\n', '\r']))
}

fn last_line(text: &str) -> u32 {
    u32::try_from(text.matches('\n').count() + 1).unwrap_or(u32::MAX)
}

/// One measure of one part.
pub(super) struct Measure<'a> {
    /// As printed.
    pub(super) number: String,
    /// Not counted in the numbering: a pickup, or the rest of a bar that a repeat divides.
    pub(super) implicit: bool,
    /// The element that holds its notes.
    pub(super) content: Node<'a, 'a>,
}

/// The measures of one part.
pub(super) struct PartMeasures<'a> {
    pub(super) id: &'a str,
    pub(super) name: String,
    pub(super) measures: Vec<Measure<'a>>,
}

/// The parts of a score, whether the file orders it by part or by measure.
pub(super) fn parts<'a>(score: Node<'a, 'a>) -> Result<Vec<PartMeasures<'a>>, ReadError> {
    let names = names(score);
    let named = |id: &'a str| PartMeasures {
        id,
        name: names.get(id).cloned().unwrap_or_else(|| id.into()),
        measures: Vec::new(),
    };
    let mut parts: Vec<PartMeasures> = Vec::new();
    match score.tag_name().name() {
        "score-partwise" => {
            for part in children(score, "part") {
                let measures = children(part, "measure").enumerate().map(|(index, node)| measure(index, node, node));
                parts.push(PartMeasures { measures: measures.collect(), ..named(id(part)) });
            }
        }
        "score-timewise" => {
            let mut places = HashMap::new();
            for (index, node) in children(score, "measure").enumerate() {
                for part in children(node, "part") {
                    let place = *places.entry(id(part)).or_insert(parts.len());
                    if place == parts.len() {
                        parts.push(named(id(part)));
                    }
                    parts[place].measures.push(measure(index, node, part));
                }
            }
        }
        _ => return Err(ReadError::NotAScore),
    }
    Ok(parts)
}

fn measure<'a>(index: usize, node: Node<'a, 'a>, content: Node<'a, 'a>) -> Measure<'a> {
    let number = node.attribute("number").map(tidy).filter(|number| !number.is_empty());
    Measure {
        number: number.unwrap_or_else(|| (index + 1).to_string()),
        implicit: node.attribute("implicit") == Some("yes"),
        content,
    }
}

fn id<'a>(part: Node<'a, 'a>) -> &'a str {
    part.attribute("id").unwrap_or("")
}

/// What the part list calls each part.
fn names<'a>(score: Node<'a, 'a>) -> HashMap<&'a str, String> {
    let listed = child(score, "part-list").into_iter().flat_map(|list| children(list, "score-part"));
    let name = |part| ["part-name", "part-abbreviation"].iter().find_map(|name| words(child(part, name)?));
    listed.filter_map(|part| Some((part.attribute("id")?, name(part)?))).collect()
}

/// The title: of the work and its movement, otherwise what is printed as one. Empty where there is none.
pub(super) fn title(score: Node) -> String {
    let work = child(score, "work").and_then(|work| words(child(work, "work-title")?));
    let movement = child(score, "movement-title").and_then(words);
    match (work, movement) {
        (Some(work), Some(movement)) if !work.contains(&movement) => format!("{work}: {movement}"),
        (Some(title), _) | (None, Some(title)) => title,
        (None, None) => printed(score, "title", "center").unwrap_or_default(),
    }
}

/// The composer: as identified, otherwise what is printed as one. Empty where there is none.
pub(super) fn composer(score: Node) -> String {
    let creators = || child(score, "identification").into_iter().flat_map(|node| children(node, "creator"));
    let composer = creators().find(|node| node.attribute("type") == Some("composer"));
    let untyped = creators().find(|node| node.attribute("type").is_none());
    composer.or(untyped).and_then(words).or_else(|| printed(score, "composer", "right")).unwrap_or_default()
}

/// What the first page prints as `kind`. Older files do not say the kind: there it is the largest
/// print at the head of the page on the side where it usually stands (common practice, no source).
fn printed(score: Node, kind: &str, side: &str) -> Option<String> {
    let credits = || children(score, "credit").filter(|credit| credit.attribute("page").is_none_or(|page| page == "1"));
    let of_kind = credits().find(|credit| children(*credit, "credit-type").any(|node| node.text() == Some(kind)));
    let stands_there = |words: &Node| {
        let aligned = words.attribute("halign").or(words.attribute("justify"));
        aligned == Some(side) && words.attribute("valign") == Some("top")
    };
    let size = |words: &Node| words.attribute("font-size").and_then(decimal);
    let unkind = credits().filter(|credit| child(*credit, "credit-type").is_none());
    let at_the_head = unkind.filter_map(|credit| child(credit, "credit-words")).filter(stands_there);
    of_kind
        .and_then(|credit| child(credit, "credit-words"))
        .or_else(|| at_the_head.reduce(|largest, next| if size(&next) > size(&largest) { next } else { largest }))
        .and_then(words)
}

/// The first child element with this name.
pub(super) fn child<'a>(node: Node<'a, 'a>, name: &str) -> Option<Node<'a, 'a>> {
    node.children().find(|child| child.has_tag_name(name))
}

/// All child elements with this name.
pub(super) fn children<'a>(node: Node<'a, 'a>, name: &str) -> impl Iterator<Item = Node<'a, 'a>> {
    node.children().filter(move |child| child.has_tag_name(name))
}

/// The trimmed text of the first child element with this name.
pub(super) fn text_of<'a>(node: Node<'a, 'a>, name: &str) -> Option<&'a str> {
    child(node, name)?.text().map(str::trim)
}

/// The text of an element as a name: on one line, shortened, not empty.
pub(super) fn words(node: Node) -> Option<String> {
    node.text().map(tidy).filter(|text| !text.is_empty())
}

fn tidy(text: &str) -> String {
    let line = text.split_whitespace().collect::<Vec<_>>().join(" ");
    line.chars().take(LONGEST_NAME).collect()
}
