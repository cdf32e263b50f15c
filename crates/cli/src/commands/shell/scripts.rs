//! The generated completion scripts, with the values of `--scope` and `--lesson` added: these the program itself lists when it is asked
//! (see `values`). PowerShell and Elvish complete commands and options only.

use clap_complete::Shell;

/// A generated script with what it lacks.
pub(super) fn with_values(shell: Shell, script: &str) -> String {
    match shell {
        Shell::Bash => format!("{script}\n{BASH}"),
        Shell::Zsh => {
            let scopes = script.replace(":FILE|NAME:_default'", ":FILE|NAME:_untaught_scopes'");
            let all = scopes.replace(":ID:_default'", ":ID:_untaught_lessons'");
            let all: Vec<String> = all.lines().map(zsh_line).collect();
            // The script calls its function in its last lines: what is added must be there before.
            let (head, rest) = all.split_first().map_or(("", &all[..]), |(head, rest)| (head.as_str(), rest));
            format!("{head}\n\n{ZSH}\n{}\n", rest.join("\n"))
        }
        Shell::Fish => {
            let lines: Vec<String> = script.lines().map(fish_line).collect();
            format!("{FISH}\n{}\n{FISH_SCOPE}", lines.join("\n"))
        }
        _ => script.to_owned(),
    }
}

/// The scope that `untaught scope` describes, and the one that `untaught init` starts from.
fn zsh_line(line: &str) -> String {
    let positional = line.starts_with("'::scope -- ");
    let built_in = line.contains("[Scope that comes with the program");
    match () {
        () if positional => line.replace(":_default'", ":_untaught_scopes'"),
        () if built_in => line.replace(":NAME:_default'", ":NAME:_untaught_built_in'"),
        () => line.to_owned(),
    }
}

fn fish_line(line: &str) -> String {
    let is = |option: &str| line.contains(&format!(" -l {option} ")) && line.ends_with(" -r");
    let init = line.contains("_using_subcommand init\"");
    match () {
        () if is("scope") && init => format!("{line} -f -a \"(__untaught_values scopes)\""),
        () if is("scope") => format!("{line} -f -k -a \"(__untaught_values scopes; __untaught_scope_files)\""),
        () if is("lesson") => format!("{line} -f -k -a \"(__untaught_values lessons)\""),
        () => line.to_owned(),
    }
}

const BASH: &str = r#"# The values of --scope and --lesson; everything else is completed by the function above.
_untaught_values() {
    local current=${COMP_WORDS[COMP_CWORD]} before=$((COMP_CWORD - 1)) kind= value about
    # `--scope=x` is three words here.
    if [[ $current == = ]]; then
        current=
    elif [[ $before -ge 1 && ${COMP_WORDS[before]} == = ]]; then
        before=$((before - 1))
    fi
    case ${COMP_WORDS[before]} in
        -s|--scope) kind=scopes ;;
        -l|--lesson) kind=lessons ;;
        scope) if [[ $before -eq 1 && $current != -* ]]; then kind=scopes; fi ;;
    esac
    if [[ -z $kind ]]; then
        _untaught "$@"
        return
    fi
    COMPREPLY=()
    while IFS=$'\t' read -r value about; do
        if [[ $value == "$current"* ]]; then
            if [[ $kind == lessons ]]; then printf -v value %q "$value"; fi
            COMPREPLY+=("$value")
        fi
    done < <(UNTAUGHT_COMPLETE=$kind "${COMP_WORDS[0]/#\~/$HOME}" "${COMP_WORDS[@]:1:COMP_CWORD-1}" 2>/dev/null)
    if [[ $kind == scopes && ${COMP_WORDS[1]} != init ]]; then
        while IFS= read -r value; do
            if [[ -d $value || $value == *.yaml || $value == *.yml ]]; then COMPREPLY+=("$value"); fi
        done < <(compgen -f -- "$current")
        compopt -o filenames 2>/dev/null
    fi
}

if [[ "${BASH_VERSINFO[0]}" -eq 4 && "${BASH_VERSINFO[1]}" -ge 4 || "${BASH_VERSINFO[0]}" -gt 4 ]]; then
    complete -F _untaught_values -o nosort -o bashdefault -o default untaught
else
    complete -F _untaught_values -o bashdefault -o default untaught
fi
"#;

const ZSH: &str = r#"# The values of --scope and --lesson, which the program lists. A colon divides a value from what it is.
_untaught_ask() {
    local line
    # The words begin with the subcommand here.
    for line in "${(@f)$(UNTAUGHT_COMPLETE=$1 untaught "${(@Q)words[1,CURRENT-1]}" 2>/dev/null)}"; do
        if [[ -n $line ]]; then asked+=("${${line%%$'\t'*}//:/\\:}:${line#*$'\t'}"); fi
    done
}

_untaught_built_in() {
    local -a asked
    _untaught_ask scopes
    _describe -t scopes 'built-in scope' asked
}

_untaught_scopes() {
    _alternative 'scopes:built-in scope:_untaught_built_in' 'files:scope file:_files -g "*.(yaml|yml)(-.)"'
}

_untaught_lessons() {
    local -a asked
    _untaught_ask lessons
    _describe -V -t lessons 'lesson' asked
}
"#;

const FISH: &str = r#"# The values of --scope and --lesson, which the program lists.
function __untaught_values
    set -l line (commandline -opc)
    set -l program (string replace -r '^~' $HOME -- $line[1])
    UNTAUGHT_COMPLETE=$argv[1] $program $line[2..-1] 2>/dev/null
end

function __untaught_scope_files
    __fish_complete_path (commandline -ct) | string match -r '.*(?:/|\.ya?ml)(?:\t.*)?$'
end
"#;

/// The scope that `untaught scope` describes.
const FISH_SCOPE: &str = r#"complete -c untaught -n "__fish_untaught_using_subcommand scope" -f -k -a "(__untaught_values scopes; __untaught_scope_files)"
"#;
