"""Reads a completion script with a grammar for PowerShell, and reports what the grammar does not know. Usage: powershell.py SCRIPT"""

import sys

import tree_sitter
import tree_sitter_powershell

parser = tree_sitter.Parser(tree_sitter.Language(tree_sitter_powershell.language()))


def faults(source):
    """The places, from 1, that are not PowerShell."""
    found, nodes = [], [parser.parse(source).root_node]
    while nodes:
        node = nodes.pop()
        if node.type == "ERROR" or node.is_missing:
            row, column = node.start_point
            found.append(f"{row + 1}:{column + 1}: {source[node.start_byte:node.end_byte][:60]!r}")
        nodes += node.children
    return found


with open(sys.argv[1], "rb") as file:
    script = file.read()
# The grammar does not know that a method may be given a block without parentheses.
script = script.replace(b".Where{ $_.CompletionText -like \"$wordToComplete*\" }", b".Where({ $_.CompletionText -like \"$wordToComplete*\" })")
found = faults(script)
assert faults(script.replace(b"[CompletionResult]::new(", b"[CompletionResult]::new((", 1)), "a parenthesis too many is found"
print(f"PowerShell: {script.count(b'[CompletionResult]::new(')} completions, read with a grammar, {len(found)} faults", *found, sep="\n")
sys.exit(bool(found) or b"Register-ArgumentCompleter" not in script)
