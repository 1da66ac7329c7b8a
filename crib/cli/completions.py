"""What each shell is told: the words behind every command, and what its options take."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from crib.cli.all_words import ANYWHERE, Option, Words, everything
from crib.cli.commands import COMMANDS

SHELLS = ("bash", "zsh", "fish", "powershell")


def script(shell: str) -> str:
    """The script for a shell, ready to be kept in a file."""
    known = [*everything(), Words(("help",), "Show help for a command", "", "", tuple(COMMANDS), ())]
    return {"bash": _bash, "zsh": _zsh, "fish": _fish, "powershell": _powershell}[shell](known)


def _words(one: Words) -> str:
    """What may stand behind a command: its own commands, and its options, which no word holds that a shell reads."""
    return " ".join((*_behind(one), *(name for option in _of(one) for name in option.names)))


def _behind(one: Words) -> tuple[str, ...]:
    """The words that a command takes: its own commands, the shells."""
    return SHELLS if one.path == ("completion",) else one.commands


def _of(one: Words) -> Iterator[Option]:
    """Its options, with those that stand anywhere."""
    own = {name for option in one.options for name in option.names}
    yield from one.options
    yield from (option for option in ANYWHERE if not own & set(option.names))


def _values(known: Iterable[Words]) -> tuple[dict[str, str], dict[str, str], list[str]]:
    """By command and option what there is to choose from; all that have a value; the options that take a file."""
    choices: dict[str, str] = {}
    valued, files = {}, []
    for one in known:
        for option in _of(one):
            for name in option.names if option.value else ():
                valued[name] = name
                if option.choices and name != "--units":
                    choices[f"{' '.join(one.path)} {name}".strip()] = " ".join(option.choices)
                if option.is_file:
                    files.append(name)
    return choices, valued, sorted(set(files))


def _cases(table: dict[str, str], put: str) -> str:
    """Lines of a shell's case: all keys that have the same words together."""
    same: dict[str, list[str]] = {}
    for key, words in table.items():
        same.setdefault(words, []).append(key)
    return "\n".join(f"        {'|'.join(map(repr, keys))}) {put.format(words)} ;;" for words, keys in same.items())


def _posix(known: list[Words], head: str, reply: str, files: str, tail: str) -> str:
    """A function for bash and zsh, which differ in how words come and go."""
    choices, valued, takes_files = _values(known)
    table = {" ".join(one.path): _words(one) for one in known}
    return f"""{head}
    while (( at < last )); do
        one="${{typed[at]}}"
        case "$one" in
        {'|'.join(sorted(valued))}) (( at += 1 )) ;;
        -*) ;;
        *) case "$trail" in
            '') trail="$one" ;;
            {'|'.join(one.path[0] for one in known if len(one.path) == 1 and one.commands)}) trail="$trail $one" ;;
            esac ;;
        esac
        (( at += 1 ))
    done
    case "$trail $before" in
{_cases({key if ' ' in key else f' {key}': words for key, words in choices.items()}, 'words="{}"')}
    esac
    case "$before" in
        {'|'.join(takes_files)}) {files} ;;
        --units) words="in mm" ;;
        {'|'.join(sorted(set(valued) - set(takes_files) - {'--units'}))}) [[ -n "$words" ]] || return 0 ;;
    esac
    if [[ -z "$words" ]]; then
        case "$trail" in
{_cases(table, 'words="{}"')}
        esac
    fi
    {reply}
{tail}
"""


def _bash(known: list[Words]) -> str:
    return _posix(known, """# crib, completed by bash: made by `crib completion bash`
_crib() {
    local typed=("${COMP_WORDS[@]}") last=$COMP_CWORD at=1 trail= words= one=
    local now="${COMP_WORDS[COMP_CWORD]}" before="${COMP_WORDS[COMP_CWORD-1]}\"""".replace('\\"', '"'),
                  'COMPREPLY=($(compgen -W "$words" -- "$now"))',
                  'COMPREPLY=($(compgen -f -- "$now")); return 0', "}\ncomplete -F _crib crib")


def _zsh(known: list[Words]) -> str:
    return _posix(known, """#compdef crib
# crib, completed by zsh: made by `crib completion zsh`
_crib() {
    setopt localoptions ksharrays
    local -a typed
    typed=("${words[@]}")
    local last=$(( CURRENT - 1 )) at=1 trail= one=
    local before="${typed[last-1]}" now="${typed[last]}"
    local words=""", "compadd -- ${=words}", "_files; return 0", '}\n_crib "$@"')


def _fish(known: list[Words]) -> str:
    lines = ["# crib, completed by fish: made by `crib completion fish`", "complete -c crib -f"]
    shorts = {one.path: one.short for one in known}
    for one in known:
        seen = _seen(one)
        for name in (*_behind(one), *(() if one.path else ("help",))):
            short = shorts.get((*one.path, name)) or shorts.get((name,), "")
            lines.append(f"complete -c crib -n {_quoted(seen)} -a {_quoted(name)} -d {_quoted(short)}")
        for option in one.options:
            long = " ".join(f"-l {name[2:]}" if name.startswith("--") else f"-s {name[1:]}" for name in option.names)
            takes = "" if not option.value else " -r -F" if option.is_file else " -x" + (
                f" -a {_quoted(' '.join(option.choices))}" if option.choices else "")
            when = f" -n {_quoted(seen)}" if one.path else ""
            lines.append(f"complete -c crib{when} {long}{takes} -d {_quoted(option.help)}")
    return "\n".join(lines) + "\n"


def _seen(one: Words) -> str:
    """When a command's words are wanted: it was typed, and none of its own commands yet."""
    said = "; and ".join(f"__fish_seen_subcommand_from {name}" for name in one.path)
    inner = f"not __fish_seen_subcommand_from {' '.join(one.commands)}" if one.commands else ""
    return "; and ".join(part for part in (said, inner) if part)


def _quoted(text: str) -> str:
    r"""A word as fish and PowerShell read it between single quotes.

    >>> print(_quoted("it's"))
    'it\'s'
    """
    return "'" + " ".join(text.split()).replace("\\", "\\\\").replace("'", "\\'") + "'"


def _powershell(known: list[Words]) -> str:
    choices, valued, files = _values(known)

    def rows(table: dict[str, str]) -> str:
        return "\n".join(f"        '{key}' = '{words}'" for key, words in table.items())

    return f"""# crib, completed by PowerShell: made by `crib completion powershell`
Register-ArgumentCompleter -Native -CommandName crib -ScriptBlock {{
    param($word, $tree, $at)
    $after = @{{
{rows({' '.join(one.path): _words(one) for one in known})}
    }}
    $choices = @{{
{rows(choices)}
    }}
    $valued = '{' '.join(sorted(valued))}'.Split(' ')
    $files = '{' '.join(files)}'.Split(' ')
    $typed = @($tree.CommandElements | ForEach-Object {{ $_.ToString() }})
    if ($word -ne '') {{ $typed = @($typed | Select-Object -SkipLast 1) }}
    $path = ''; $before = ''; $skip = $false
    foreach ($one in $typed | Select-Object -Skip 1) {{
        if ($skip) {{ $skip = $false }}
        elseif ($valued -contains $one) {{ $skip = $true }}
        elseif ($one -notlike '-*' -and $after.ContainsKey("$path $one".Trim())) {{ $path = "$path $one".Trim() }}
        $before = $one
    }}
    if ($skip -and $files -contains $before) {{ return }}
    $words = if ($skip) {{ $choices["$path $before".Trim()] }} else {{ $after[$path] }}
    if ($skip -and -not $words) {{ $words = $choices[$before] }}
    "$words".Split(' ') | Where-Object {{ $_ -like "$word*" -and $_ }} | ForEach-Object {{
        [System.Management.Automation.CompletionResult]::new($_, $_, 'ParameterValue', $_)
    }}
}}
"""
