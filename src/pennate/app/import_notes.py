"""After an import: what the log left unsaid, and what it is taken to mean."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pennate.app.book import Book
from pennate.app.choices import kept_choices, loads_kept
from pennate.app.exchange import ImportReport
from pennate.app.no_loads import load_columns, sets_without, without_load
from pennate.app.outline import CARD_KEY
from pennate.app.unnamed import TOGETHER, Unnamed
from pennate.core.exercise import Catalogue, EquipmentKind
from pennate.core.gym import AnyItem
from pennate.core.plural import plural
from pennate.core.quantities import LoadReading
from pennate.files.log import LogFile
from pennate.files.log_cells import meant_by
from pennate.files.log_words import rpe_words
from pennate.files.ways import COMMAND_LINE, Ways

MOST_TOLD = 6
"""Exercises told by name in one sentence; the page of each says the same of it."""


def import_notes(book: Book, report: ImportReport, ways: Ways = COMMAND_LINE) -> tuple[str, ...]:
    """Sentences on columns that were not read, on sets without equipment, and on their loads."""
    log = report.log
    if log is None or not (report.added or report.corrected):
        return ()
    bare = [one for one in book.unnamed().values() if one.exercise in _exercises(log)]
    return (
        *without_load(log, book.catalogue, ways=ways),
        *rpe_words(log),
        *_unread(log, load_columns(log, sets_without(log, book.catalogue))),
        *_strange(log, book.catalogue, ways),
        *_equipment(book, log, bare),
        *_both_together(log, book, bare, ways),
    )


def _exercises(log: LogFile) -> set[str]:
    return {done.exercise for done in log.rows if not done.equipment}


def _unread(log: LogFile, told: Sequence[str]) -> Iterator[str]:
    """Columns kept beside the sets, with what one was likely meant to be; some are told of."""
    plain = []
    for column in log.others:
        meant = meant_by(column)
        if column in {CARD_KEY, log.rpe} or column in told:
            continue
        if column.casefold() == "sets":
            yield "The column “sets” is kept but not read: a row is one set, so write one for each."
            continue
        if not meant or meant in log.columns:
            plain.append(column)
            continue
        said = "it counts reps in reserve (10 less an RPE)" if meant == "rir" else "that is meant"
        yield (
            f"The column “{column}” is kept but not read. Call it {meant} if {said}, and import"
            " the file again: the sets are corrected, not doubled."
        )
    if plain:
        yield f"Kept, but not read: {', '.join(plain)}."


def _strange(log: LogFile, catalogue: Catalogue, ways: Ways) -> Iterator[str]:
    """Exercises that were accepted although nobody described them."""
    names = sorted({done.exercise for done in log.rows} - set(catalogue.exercises))
    if names:
        yield (
            "Kept apart, and on no page, as the catalogue has no such exercise:"
            f" {', '.join(names[:MOST_TOLD])}{' …' * (len(names) > MOST_TOLD)}."
            f" {ways.apart}"
        )


def _equipment(book: Book, log: LogFile, bare: list[Unnamed]) -> Iterator[str]:
    """What sets without equipment count for, and equipment that no gym of hers has."""
    if bare and book.gym() is None:
        yield (
            f"{plural(sum(one.sets for one in bare), 'set')} without equipment: once there is a"
            " gym (start page, or pennate gym commercial_kg --take), each exercise counts for"
            " what your week or gym gives it."
        )
        return
    names = {one.exercise: book.catalogue[one.exercise].name for one in bare}
    taken = [f"{names[one.exercise]} for “{one.item.name}”" for one in bare if one.item]
    if taken:
        more = len(taken) - MOST_TOLD
        told = [*taken[:MOST_TOLD], f"and {plural(more, 'more exercise')}"] if more > 0 else taken
        yield (
            f"Sets without equipment count as your week or gym has the exercise: {', '.join(told)}."
            " Was it another? Choose it on the Week page."
        )
    yield from (f"{names[one.exercise]}: {one.words}." for one in bare if not one.item)
    known = {item.id for gym in book.gyms() for item in gym.items}
    strange = sorted({done.equipment for done in log.rows} - known - {""})
    if strange and known:
        yield (
            f"No gym of yours has “{'”, “'.join(strange[:MOST_TOLD])}”: strength there stays apart."
            " Write an id that pennate gym GYM lists, or leave the cell empty, and import again."
        )


def _both_together(log: LogFile, book: Book, bare: list[Unnamed], ways: Ways) -> Iterator[str]:
    """What a bare number counts where lifters say it in two ways, and she has said neither."""
    if "load_is" in log.columns:
        return
    catalogue = book.catalogue
    said = loads_kept(kept_choices(book.ledger), catalogue)
    loaded = {done.exercise for done in log.rows if done.load and done.reading is LoadReading.TOTAL}
    for kind, word, where in (
        (EquipmentKind.DUMBBELLS, "each", "where it is one of them"),
        (EquipmentKind.SLED, "plates", "where the sled is not counted"),
    ):
        names = [
            catalogue[one.exercise].name
            for one in bare
            if one.exercise in loaded
            and one.exercise not in said
            and kind in {item.kind for item in _could_be(one)}
        ]
        if names:
            yield (
                f"Loads are read as {TOGETHER[kind]} together ({', '.join(names[:MOST_TOLD])})."
                f" Add a column load_is with {word}, {where}, {_or(ways, names[0], word)}and import"
                " again."
            )


def _or(ways: Ways, name: str, word: str) -> str:
    return f"or {ways.load_is.format(name=name, word=word)}, " if ways.load_is else ""


def _could_be(one: Unnamed) -> tuple[AnyItem, ...]:
    return (one.item,) if one.item else one.others
