//! Recipes of a few lines in one file, each under a line that says what it stands for.

/// One of them.
pub struct Case {
    /// The words behind `#`.
    pub title: String,
    /// The lines of the list with what stands behind `->`; a heading has nothing there.
    pub list: Vec<(String, Option<String>)>,
    /// Lines `? food -> steps`: what the steps use and the list does not have.
    pub unlisted: Vec<(String, String)>,
    /// The whole recipe.
    pub manuscript: String,
    /// A line `^ words`: the words of the recipe that are to be marked.
    pub marked: Option<String>,
    /// Lines `~ words -> other words`, with `\n` for a new line: what mends the recipe.
    pub mended: Vec<(String, String)>,
}

impl Case {
    /// The recipe as it should be; fails where a change finds nothing to change.
    pub fn sound(&self) -> String {
        self.mended.iter().fold(self.manuscript.clone(), |text, (words, others)| {
            assert!(text.contains(words.as_str()), "{}: nothing reads {words:?}", self.title);
            text.replacen(words.as_str(), others, 1)
        })
    }
}

/// The cases of a file: a line `# title`, the list, a blank line, the method with a step a line. A case that begins with
/// `Recipe:` is a manuscript as it stands.
pub fn cases(file: &str) -> Vec<Case> {
    let all = format!("\n{file}");
    all.split("\n# ").skip(1).map(case).collect()
}

fn case(text: &str) -> Case {
    let (title, body) = text.split_once('\n').unwrap_or((text, ""));
    let (own, body): (Vec<&str>, Vec<&str>) = body.lines().partition(|line| line.starts_with(['^', '~']));
    let body = body.join("\n");
    let change = |line: &str| {
        let line = line.strip_prefix("~ ")?.replace("\\n", "\n");
        let (words, others) = line.split_once(" ->").expect("a change has words on both sides of ->");
        Some((words.to_owned(), others.strip_prefix(' ').unwrap_or(others).to_owned()))
    };
    let mut case = Case {
        title: title.to_owned(),
        list: Vec::new(),
        unlisted: Vec::new(),
        manuscript: String::new(),
        marked: own.iter().find_map(|line| line.strip_prefix("^ ")).map(str::to_owned),
        mended: own.into_iter().filter_map(change).collect(),
    };
    if body.starts_with("Recipe:") {
        case.manuscript = format!("{}\n", body.trim_end());
        return case;
    }
    let (list, method) = body.trim().split_once("\n\n").expect("a blank line between list and method");
    for line in list.lines() {
        let (words, steps) = match line.split_once(" -> ") {
            Some((words, steps)) => (words, Some(steps.to_owned())),
            None => (line, None),
        };
        match words.strip_prefix("? ") {
            Some(food) => case.unlisted.push((food.to_owned(), steps.unwrap_or_default())),
            None => case.list.push((words.to_owned(), steps)),
        }
    }
    let line = |(words, _): &(String, Option<String>)| {
        if words.ends_with(':') { format!("\n{words}\n") } else { format!("- {words}\n") }
    };
    let list: String = case.list.iter().map(line).collect();
    let method = method.lines().collect::<Vec<_>>().join("\n\n");
    // A number says which row of a table the case is for, and the words behind it why: no dish.
    let dish = if case.title.contains(':') { "Trial" } else { &case.title };
    case.manuscript = format!("Recipe: {dish}\nServes: 4\n\nIngredients:\n{list}\nMethod:\n\n{method}\n");
    case
}
