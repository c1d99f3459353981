"""What a short name means in this session: "the swings" are the kettlebell swings."""

from collections.abc import Sequence

from cuewright.movements.catalogue import catalogue
from cuewright.phrases import stem
from cuewright_models.plan import Block, efforts
from cuewright_models.tokens import Mention, Reading


class Names:
    """The movements of a session, in order, and how talk about them is resolved."""

    def __init__(self, reading: Reading, blocks: Sequence[Block]) -> None:
        self._reading = reading
        found = [e.movement for block in blocks for e in efforts(block.items)]
        self.session: tuple[str, ...] = tuple(dict.fromkeys(found))
        work = [
            e.movement
            for block in blocks
            if block.kind not in ("warm-up", "mobility", "cool-down")
            for e in efforts(block.items)
        ]
        self.work: tuple[str, ...] = tuple(dict.fromkeys(work))

    def resolve(self, mention: Mention) -> str:
        """The session's own movement that a mention stands for, else its catalogue name.

        A mention means the movement of the main work whose name, or a name it goes by,
        ends with the words said.
        """
        if mention.name in self.session:
            return mention.name
        said = tuple(self._reading.stems[mention.start : mention.end])
        for name in (*self.work, *self.session):
            if any(form[-len(said) :] == said for form in _forms(name)):
                return name
        return mention.name


def _forms(name: str) -> list[tuple[str, ...]]:
    """A movement's names as stems."""
    row = catalogue().get(name)
    said = (name.replace("-", " "), *(row.said if row else ()))
    return [tuple(stem(word) for word in form.lower().replace("-", " ").split()) for form in said]
