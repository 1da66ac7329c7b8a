"""A sheet of single characters that others draw on."""

from __future__ import annotations

from crib.render.terminal.paint import Look, Mark, painted


class Canvas:
    """Rows of cells. What falls off the sheet is not drawn."""

    def __init__(self, columns: int, rows: int) -> None:
        self.columns, self.rows = columns, rows
        self._cells = [[" "] * columns for _ in range(rows)]
        self._looks: list[dict[int, Look]] = [{} for _ in range(rows)]

    def holds(self, row: int, column: int) -> bool:
        """Whether there is such a cell."""
        return 0 <= row < self.rows and 0 <= column < self.columns

    def get(self, row: int, column: int) -> str:
        """The character in a cell; blank off the sheet."""
        return self._cells[row][column] if self.holds(row, column) else " "

    def row(self, row: int) -> str:
        """The characters of a whole row of the sheet."""
        return "".join(self._cells[row])

    def put(self, row: int, column: int, text: str, look: Look | None = None) -> None:
        """Write along a row from a column."""
        if len(text) == 1 and look is None and self.holds(row, column):  # as most are
            self._cells[row][column] = text
            self._looks[row].pop(column, None)
            return
        for at, glyph in enumerate(text, start=column):
            if self.holds(row, at):
                self._cells[row][at] = glyph
                self._looks[row].pop(at, None)
                if look and glyph != " ":
                    self._looks[row][at] = look

    def blank(self, row: int, column: int, length: int) -> bool:
        """Whether cells of a row are on the sheet and empty."""
        return column >= 0 and column + length <= self.columns and (length <= 0 or (
            0 <= row < self.rows and self._cells[row][column:column + length] == [" "] * length))

    def signs(self) -> set[str]:
        """The characters that were drawn, a blank among them."""
        return {" "}.union(*self._cells)

    def lines(self) -> list[str]:
        """The sheet, without blanks at the ends of lines."""
        return [painted("".join(cells).rstrip(), self._marks(row)) for row, cells in enumerate(self._cells)]

    def _marks(self, row: int) -> list[Mark]:
        marks: list[Mark] = []
        for column, look in sorted(self._looks[row].items()):
            if marks and marks[-1].end == column and marks[-1].look == look:
                marks[-1] = Mark(marks[-1].start, column + 1, look)
            else:
                marks.append(Mark(column, column + 1, look))
        return marks
