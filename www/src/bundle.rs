//! The one-file page: the whole site in one HTML file that opens from a disk, without a server or a network.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, ensure};
use base64ct::{Base64, Encoding};
use flate2::{Compression, write::GzEncoder};
use serde_json::json;

use crate::parts;
use crate::release::integrity;
use crate::wasm;

/// Opens the package, in the page and in its worker.
const OPEN: &str = include_str!("bundle/open.js");

/// Starts the worker, where the page has one.
const WORKER: &str = include_str!("bundle/worker.js");

/// Boots the page.
const START: &str = include_str!("bundle/start.js");

/// The scripts of the one file.
struct Scripts {
    /// The binding, the package packed as text, and what opens it.
    package: String,
    /// What the page does with it.
    start: String,
}

/// Writes `halfbreadth.html` into the folder `out`; answers with its path and size in bytes.
///
/// Browsers let a page from a disk load no module, no wasm and no worker from beside it: so the binding is a classic script,
/// the package stands in it as text, and the policy names scripts and styles by their hashes. Links made in the page begin
/// with `address`, where a copy of it is published; without one they are only the part from `#` on.
///
/// # Errors
///
/// When the wasm package does not build, a file is missing or not written, or the page refers to one that is not inside.
pub(crate) fn bundle(workspace: &Path, out: &Path, address: Option<&str>) -> Result<(PathBuf, usize)> {
    let parts = tempdir(workspace)?;
    wasm::bind_classic(&wasm::compile(workspace)?, &parts)?;
    let glue = read(&parts.join(format!("{}.js", wasm::NAME)))?;
    let package = parts.join(format!("{}_bg.wasm", wasm::NAME));
    let package = fs::read(&package).with_context(|| format!("cannot read {}", package.display()))?;
    let page = workspace.join("www/page");
    let scripts = Scripts { package: package_script(&glue, &package)?, start: start_script(&page)? };
    let page = inline(&page, &scripts, address)?;
    let path = out.join(format!("{}.html", wasm::NAME));
    fs::create_dir_all(out).with_context(|| format!("cannot make {}", out.display()))?;
    fs::write(&path, &page).with_context(|| format!("cannot write {}", path.display()))?;
    Ok((path, page.len()))
}

/// An empty folder for what is built on the way.
fn tempdir(workspace: &Path) -> Result<PathBuf> {
    let folder = workspace.join("target/bundle");
    fs::create_dir_all(&folder).with_context(|| format!("cannot make {}", folder.display()))?;
    Ok(folder)
}

fn package_script(glue: &str, package: &[u8]) -> Result<String> {
    Ok(format!("{glue}\nconst packedWasm = '{}';\n{OPEN}", packed(package)?))
}

/// Bytes made smaller, as text.
fn packed(bytes: &[u8]) -> Result<String> {
    let mut packer = GzEncoder::new(Vec::new(), Compression::best());
    packer.write_all(bytes)?;
    Ok(Base64::encode_string(&packer.finish()?))
}

/// Boots the page of `folder` in its language, with `worker.js` and `work.js` to ask it.
fn start_script(folder: &Path) -> Result<String> {
    let worker = json!(classic(&read(&folder.join("worker.js"))?)?).to_string().replace("</", "<\\/");
    let asker = classic(&read(&folder.join("work.js"))?)?;
    let language = classic(&read(&folder.join("language.js"))?)?;
    // Inside a function, so that none of its names meets one of the package's script.
    Ok(format!("(() => {{\nconst workerText = {worker};\n{language}\n{asker}\n{WORKER}{START}}})();\n"))
}

/// The catalogues of other languages, packed, each as data that `language.js` finds by `language-` and the code.
fn catalogues(folder: &Path) -> Result<String> {
    let folder = folder.join("language");
    let entries = fs::read_dir(&folder).with_context(|| format!("cannot read {}", folder.display()))?;
    let mut paths: Vec<PathBuf> = entries.map(|entry| Ok(entry?.path())).collect::<Result<_>>()?;
    paths.sort();
    let mut elements = String::new();
    for path in paths {
        let code = path.file_stem().and_then(|code| code.to_str()).context("a catalogue has no code")?;
        let text = packed(read(&path)?.as_bytes())?;
        elements += &format!("<script type=\"text/plain\" id=\"language-{code}\">{text}</script>\n");
    }
    Ok(elements)
}

/// A module that imports the package alone, as a classic script that finds it in the same global scope.
fn classic(module: &str) -> Result<String> {
    let mut script = String::new();
    for line in module.lines() {
        if let Some(names) = line.strip_prefix("import init, ") {
            let names = names
                .strip_suffix(" from './halfbreadth.js';")
                .context("a script imports more than the package")?;
            script += &format!("const init = openPackage, {names} = wasm_bindgen;");
        } else {
            ensure!(!line.starts_with("import "), "a script imports more than the package: {line}");
            script += line.strip_prefix("export ").unwrap_or(line);
        }
        script.push('\n');
    }
    Ok(script)
}

/// The page of `folder` with its styles, its icon and scripts inside.
fn inline(folder: &Path, scripts: &Scripts, address: Option<&str>) -> Result<String> {
    let page =
        parts::joined(folder).with_context(|| format!("cannot read the page in {}", folder.display()))?;
    let (before, body) = page.split_once("<body").context("the page has no body")?;
    let styles = parts::styles(folder, before)
        .with_context(|| format!("cannot read the styles in {}", folder.display()))?;
    let Scripts { package, start } = scripts;
    let ends = styles.contains("</style") || package.contains("</script") || start.contains("</script");
    ensure!(!ends, "a style or script ends its own element");
    let mut head = String::new();
    for line in before.lines() {
        match parts::attribute(line, "href") {
            Some(file) if line.contains(r#"rel="icon""#) => {
                let drawing = Base64::encode_string(read(&folder.join(file))?.as_bytes());
                head += &line.replace(file, &format!("data:image/svg+xml;base64,{drawing}"));
                head.push('\n');
            }
            // The styles are inside already; what installs a site has no meaning in a file.
            Some(_) => {}
            None if line.contains("<script") || line.contains("</head>") => {}
            None if line.contains("Content-Security-Policy") => {
                head +=
                    &policy(&integrity(styles.as_bytes()), [package, start].map(|s| integrity(s.as_bytes())));
            }
            None => {
                head += line;
                head.push('\n');
            }
        }
    }
    let catalogues = catalogues(folder)?;
    let scripts =
        format!("{catalogues}<script id=\"package\">{package}</script>\n<script>{start}</script>\n</body>");
    let body = body.replace("</body>", &scripts);
    let home = address.map(|address| format!(r#" data-address="{}""#, escape(address))).unwrap_or_default();
    Ok(format!("{head}<style>{styles}</style>\n</head>\n<body data-one-file{home}{body}"))
}

/// The policy of the one file: these styles, these scripts, what it makes itself, and nothing else.
fn policy(styles: &str, [package, start]: [String; 2]) -> String {
    format!(
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; \
         script-src '{package}' '{start}' 'wasm-unsafe-eval'; style-src '{styles}'; img-src data: blob:; worker-src blob:; \
         base-uri 'none'; form-action 'none'; require-trusted-types-for 'script'; trusted-types app\">\n"
    )
}

/// A text as the value of an attribute.
fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('"', "&quot;").replace('<', "&lt;")
}

fn read(path: &Path) -> Result<String> {
    fs::read_to_string(path).with_context(|| format!("cannot read {}", path.display()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The page of this checkout around two scripts.
    fn page(address: Option<&str>) -> String {
        let workspace = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap();
        let scripts = Scripts { package: "package()".to_owned(), start: "start()".to_owned() };
        inline(&workspace.join("www/page"), &scripts, address).unwrap()
    }

    #[test]
    fn the_one_file_asks_for_no_other() {
        let page = page(None);
        for (i, _) in page.match_indices(" href=\"").chain(page.match_indices(" src=\"")) {
            let (_, value) = page[i..].split_once('"').unwrap();
            assert!(value.starts_with('#') || value.starts_with("data:"), "{}", &value[..40]);
        }
        assert!(!page.contains("@import") && !page.contains("url("));
    }

    #[test]
    fn the_policy_names_scripts_and_styles_by_their_hashes() {
        let page = page(None);
        let between = |from: &str, to: &str| page.split_once(from).unwrap().1.split_once(to).unwrap().0;
        let policy = between("http-equiv=\"Content-Security-Policy\" content=\"", "\"");
        let [package, start] = [integrity(b"package()"), integrity(b"start()")];
        assert!(
            policy.contains(&format!("script-src '{package}' '{start}' 'wasm-unsafe-eval';")),
            "{policy}"
        );
        let styles = between("<style>", "</style>");
        assert!(policy.contains(&format!("style-src '{}';", integrity(styles.as_bytes()))), "{policy}");
        assert_eq!(between("<script id=\"package\">", "</script>"), "package()");
        assert_eq!(between("<script>", "</script>"), "start()");
    }

    #[test]
    fn an_address_is_escaped_where_it_stands() {
        let page = page(Some("https://a.example/?a=\"><b>&c"));
        assert!(page.contains(r#"data-address="https://a.example/?a=&quot;>&lt;b>&amp;c""#));
    }

    #[test]
    fn a_module_becomes_a_classic_script_over_the_same_package() {
        let module = "// A worker.\nimport init, { a, b } from './halfbreadth.js';\nexport const c = a;\n";
        let script = "// A worker.\nconst init = openPackage, { a, b } = wasm_bindgen;\nconst c = a;\n";
        assert_eq!(classic(module).unwrap(), script);
        assert!(classic("import { d } from './d.js';\n").is_err());
    }
}
