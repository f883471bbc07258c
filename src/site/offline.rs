//! What makes a served site one that reads without a network: a list of its files with a hash of each, the worker that keeps
//! them in a reader's browser, and the manifest by which a phone takes it for an app.
//!
//! The worker's text changes exactly when the site does: its version is the hash of all files.

use std::sync::Arc;

use rayon::prelude::*;
use serde_json::json;
use xxhash_rust::xxh3::xxh3_64;

use super::SiteFile;
use super::names::Names;
use crate::host::Bytes;
use crate::source::ByName;
use crate::views::page::{Piece, SiteView};

/// How much is kept at first, in bytes: what a phone takes in over a slow line while a page is being read. Common practice,
/// no source.
pub(super) const AT_FIRST: usize = 16_000_000;

const WORKER: &str = include_str!("../../templates/site/worker.js");

/// A file of the site by its path from the root, with what stands in it.
pub type Written<'f> = (&'f str, &'f Bytes);

/// Files that were listed, by path. What has not changed since is not hashed again: a hash takes far longer than to see
/// that.
#[derive(Debug, Default)]
pub struct Hashes(ByName<String, (Bytes, Arc<str>)>);

impl Hashes {
    /// The line of a file in the list: its path and its hash, as JSON has a key and its value.
    fn line(&self, path: &str, bytes: &Bytes) -> (Arc<str>, bool) {
        let known = self.0.get(path);
        let same = |known: &&(Bytes, Arc<str>)| Bytes::ptr_eq(&known.0, bytes) || known.0 == *bytes;
        if let Some((_, line)) = known.filter(same) {
            return (Arc::clone(line), false);
        }
        let path = serde_json::Value::from(path);
        (format!("{path}:\"{:016x}\"", xxh3_64(bytes)).into(), true)
    }

    /// The lines of all files in the order of their paths, with commas between them.
    fn lines(&mut self, written: &[Written<'_>]) -> String {
        let mut lines: Vec<(&str, Arc<str>, bool)> = written
            .par_iter()
            .map(|&(path, bytes)| {
                let (line, is_new) = self.line(path, bytes);
                (path, line, is_new)
            })
            .collect();
        for ((path, line, is_new), (_, bytes)) in lines.iter().zip(written) {
            if *is_new {
                self.0
                    .insert((*path).to_owned(), (Bytes::clone(bytes), Arc::clone(line)));
            }
        }
        if self.0.len() > written.len() {
            let there: ByName<&str, ()> = written.iter().map(|(path, _)| (*path, ())).collect();
            self.0.retain(|path| there.get(path).is_some());
        }
        lines.par_sort_unstable_by_key(|(path, ..)| *path);
        let mut out = String::with_capacity(lines.iter().map(|(_, line, _)| line.len() + 1).sum());
        for (at, (_, line, _)) in lines.iter().enumerate() {
            if at > 0 {
                out.push(',');
            }
            out.push_str(line);
        }
        out
    }
}

/// The list, the worker and the manifest for a site whose files are all written. `hashes` are those of an earlier list.
pub fn files(site: &SiteView<'_>, written: &[Written<'_>], hashes: &mut Hashes) -> Vec<SiteFile> {
    let names = Names::of(site);
    let lines = hashes.lines(written);
    let version = format!("{:016x}", xxh3_64(lines.as_bytes()));
    // What is kept before anybody opens it, most needed first; and every file with its hash.
    let list = format!(
        "{{\"version\":\"{version}\",\"first\":{},\"files\":{{{lines}}}}}",
        json!(first(site, &names, written))
    );
    let pages = written
        .iter()
        .filter(|(path, _)| ending(path) == "html" && !leads_on(&names, path))
        .count();
    let worker = WORKER
        .replace("@VERSION@", &version)
        .replace("@PAGES@", &pages.to_string())
        .replace("@NOT_KEPT@", &names.not_kept);
    let file = |path: &str, text: String| SiteFile::text(path.to_owned(), text);
    vec![
        file("kept.json", list),
        file("worker.js", worker),
        file("site.webmanifest", manifest(site)),
    ]
}

fn manifest(site: &SiteView<'_>) -> String {
    json!({
        "name": site.title,
        "lang": site.language,
        "start_url": "./",
        "scope": "./",
        "display": "standalone",
        "background_color": "#ffffff",
        "theme_color": "#ffffff",
        "icons": [
            { "src": "icon.svg", "sizes": "any", "type": "image/svg+xml" },
            { "src": "icon.png", "sizes": "512x512", "type": "image/png" },
        ],
    })
    .to_string()
}

/// Whether a page is a lasting address, which shows nothing itself.
fn leads_on(names: &Names, path: &str) -> bool {
    path.strip_prefix(&names.at_folder)
        .is_some_and(|rest| rest.starts_with('/'))
}

/// What is kept at first: as much as [`AT_FIRST`] holds, in the order in which it would be missed.
fn first<'f>(site: &SiteView<'_>, names: &Names, written: &[Written<'f>]) -> Vec<&'f str> {
    let at_the_trays: ByName<&str, ()> = site
        .pages
        .iter()
        .filter(|page| {
            let mut body = page.body.iter();
            body.any(|piece| matches!(piece, Piece::Block(block) if ["recipe", "process"].contains(&block.kind.as_str())))
        })
        .map(|page| page.path.as_str())
        .chain(site.clocks.iter().map(|clock| clock.path.as_str()))
        .map(|path| (path, ()))
        .collect();
    let own: ByName<&str, ()> = site.pages.iter().map(|page| (page.path.as_str(), ())).collect();
    let leads_on = |path: &str| leads_on(names, path);
    let rank = |path: &str| {
        if [&names.home, &names.list, &names.not_kept]
            .iter()
            .any(|name| *name == path)
        {
            return 1;
        }
        // Long lists, and each line of them stands on its page as well.
        let list = [&names.findings, &names.facts];
        if list.iter().any(|name| {
            name.strip_suffix(".html")
                .is_some_and(|stem| path.starts_with(stem))
        }) && own.get(path).is_none()
        {
            return 7;
        }
        match ending(path) {
            "css" | "svg" | "ttf" | "woff2" => 0,
            "js" if !path.contains('/') => 0,
            "html" if at_the_trays.get(path).is_some() => 2,
            "html" if own.get(path).is_some() => 4,
            "html" if leads_on(path) => 6,
            "html" => 3,
            "js" => 5,
            "png" | "jpg" | "jpeg" => 6,
            // Data to carry away and texts of licences are not read offline.
            _ => 8,
        }
    };
    let mut ranked: Vec<(u8, Written<'f>)> = written
        .par_iter()
        .map(|&file| (rank(file.0), file))
        .filter(|&(rank, _)| rank < 8)
        .collect();
    // Stable: within a rank the order of writing, which is that of reading.
    ranked.sort_by_key(|&(rank, _)| rank);
    let mut room = AT_FIRST;
    let mut first = Vec::new();
    for (rank, (path, bytes)) in ranked {
        if rank > 1 && bytes.len() > room {
            break;
        }
        room = room.saturating_sub(bytes.len());
        first.push(path);
    }
    first
}

fn ending(path: &str) -> &str {
    path.rsplit_once('.').map_or("", |(_, ending)| ending)
}
