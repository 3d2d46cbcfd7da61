"""Every single change that is tried of a file: comparisons, conditions, sums, numbers, returns."""

from __future__ import annotations

import ast
import copy
from collections.abc import Iterator
from pathlib import Path

from builder.record import dataclass

_COMPARED: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
}
_WORKED_OUT: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult,
}
_DROPPED = (ast.AugAssign, ast.Raise, ast.Continue, ast.Break)


@dataclass(frozen=True, slots=True)
class Mutant:
    """A change of one file: the bytes from `start` to `end` become `fresh`."""

    file: str
    line: int
    start: int
    end: int
    fresh: str

    def of(self, raw: bytes) -> bytes:
        """Give the file with the change in it."""
        return raw[: self.start] + self.fresh.encode("utf-8") + raw[self.end :]

    def shown(self, raw: bytes) -> str:
        """Tell it in a line."""
        before = " ".join(raw[self.start : self.end].decode("utf-8").split())
        return f"{self.file}:{self.line}: {before} → {self.fresh}"


def mutants_of(root: Path, file: str) -> list[Mutant]:
    """Give all changes of the functions of a file; what stands outside is run before any test."""
    raw = (root / file).read_bytes()
    starts = [0]
    for line in raw.splitlines(keepends=True):
        starts.append(starts[-1] + len(line))
    found = []
    for node, fresh in _changes(ast.parse(raw)):
        assert node.end_lineno is not None and node.end_col_offset is not None
        start = starts[node.lineno - 1] + node.col_offset
        end = starts[node.end_lineno - 1] + node.end_col_offset
        found.append(Mutant(file, node.lineno, start, end, fresh))
    return found


def _changes(tree: ast.Module) -> Iterator[tuple[ast.expr | ast.stmt, str]]:
    todo: list[tuple[ast.AST, bool]] = [(tree, False)]
    while todo:
        node, inside = todo.pop()
        if inside:
            yield from _of_node(node)
        # Words that are shown are held by golden pages, and have no offsets of their own.
        if isinstance(node, ast.JoinedStr | ast.Assert):
            continue
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            todo += ((each, True) for each in node.body)
        elif isinstance(node, ast.AnnAssign):
            todo += [(node.value, inside)] if node.value else []
        else:
            todo += ((each, inside) for each in ast.iter_child_nodes(node))


def _of_node(node: ast.AST) -> Iterator[tuple[ast.expr | ast.stmt, str]]:
    match node:
        case ast.Compare(ops=[op]):
            for kind in _COMPARED[type(op)]:
                yield node, _with(node, ops=[kind()])
        case ast.BoolOp(op=ast.And()):
            yield node, _with(node, op=ast.Or())
        case ast.BoolOp(op=ast.Or()):
            yield node, _with(node, op=ast.And())
        case ast.UnaryOp(op=ast.Not()):
            yield node, f"({ast.unparse(node.operand)})"
        case ast.BinOp(op=op) if type(op) in _WORKED_OUT and not _is_words(node):
            yield node, _with(node, op=_WORKED_OUT[type(op)]())
        case ast.Constant(value=bool() as value):
            yield node, str(not value)
        case ast.Constant(value=int() | float() as value):
            yield node, repr(value + 1)
        case ast.If(test=test) | ast.IfExp(test=test) | ast.While(test=test):
            if not isinstance(test, ast.Compare):
                yield test, f"(not ({ast.unparse(test)}))"
        case ast.Return(value=ast.expr() as value):
            if not isinstance(value, ast.Constant) or value.value is not None:
                yield value, "None"
        case ast.Expr(value=ast.Call() | ast.Yield() | ast.YieldFrom()):
            yield node, "pass"
        case ast.stmt() if isinstance(node, _DROPPED):
            yield node, "pass"
        case _:
            pass


def _with(node: ast.expr, **changed: object) -> str:
    fresh = copy.deepcopy(node)
    for name, value in changed.items():
        setattr(fresh, name, value)
    return f"({ast.unparse(fresh)})"


def _is_words(node: ast.BinOp) -> bool:
    """Tell whether texts are joined, which no other sign can do."""
    return any(
        isinstance(each, ast.JoinedStr)
        or (isinstance(each, ast.Constant) and isinstance(each.value, str))
        for each in (node.left, node.right)
    )
