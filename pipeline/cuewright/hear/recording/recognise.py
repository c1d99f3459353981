"""One window of speech to words, by faster-whisper, always the same way for the same sound.

Sampling is left out, as it would give other words every time. A window that comes out as
one phrase over and over, or hardly likely, is heard once more with repeating forbidden.
"""

import math
from collections.abc import Iterable, Iterator
from pathlib import Path
from statistics import fmean
from typing import TYPE_CHECKING, Any

from cuewright.errors import CuewrightError
from cuewright.hear.recording.media import RATE
from cuewright.hear.recording.options import Listening
from cuewright.hear.recording.speech import TAIL_S, Window
from cuewright_models.hearing import LeftOut, Piece
from cuewright_models.transcript import Word

if TYPE_CHECKING:
    from faster_whisper import WhisperModel
    from faster_whisper.transcribe import Segment

    from cuewright.hear.recording.media import Samples

MOST_REPETITION = 2.4
LEAST_LIKELIHOOD = -1.0
MOST_SILENCE = 0.6
"""The recogniser's own thresholds for a failed window (openai/whisper, ``transcribe``)."""

SAME_ALWAYS: dict[str, Any] = {
    "beam_size": 5,
    "temperature": 0.0,
    "condition_on_previous_text": False,
    "word_timestamps": True,
    "compression_ratio_threshold": None,
    "log_prob_threshold": None,
    "no_speech_threshold": None,
}
"""Options of every window; the three thresholds are applied here, so that nothing is lost."""
_REPEAT_NOTHING = {"no_repeat_ngram_size": 6}


class NoRecogniser(CuewrightError):
    """The recogniser cannot be started or cannot go on."""


class Recogniser:
    """A loaded model. ``language`` is the one in use, once known."""

    def __init__(self, folder: Path, options: Listening, language: str | None) -> None:
        """Load the model in ``folder``.

        Raises NoRecogniser with one sentence when there is no such device, too little
        memory, the model is damaged, or it does not know the language.
        """
        self._model = _loaded(folder, options)
        if language is not None and language not in self._model.supported_languages:
            raise NoRecogniser(_no_language(language, self._model.supported_languages))
        self.language = language
        self._hints = options.hints

    def hear(self, window: Window) -> tuple[list[Piece], list[LeftOut]]:
        """What is said in a window, and what is not believed of it."""
        try:
            pieces = self._pieces(window)
            if any(map(_failed, pieces)):
                again = self._pieces(window, **_REPEAT_NOTHING)
                pieces = min(pieces, again, key=_doubt)
        except RuntimeError as error:
            raise NoRecogniser(_reason(error)) from None
        if not pieces:
            return [], [_nothing(window)]
        believed = [piece for piece in pieces if _unbelievable(piece) is None]
        return believed, [_left_out(piece) for piece in pieces if _unbelievable(piece)]

    def know_language(self, sound: "Samples") -> str:
        """The language of ``sound``, unless it is known already."""
        if self.language is None:
            self.language = "en"
            if self._model.model.is_multilingual:
                self.language = str(self._model.detect_language(sound)[0])
        return self.language

    def _pieces(self, window: Window, **more: Any) -> list[Piece]:
        language = self.know_language(window.sound)
        options = {**SAME_ALWAYS, "hotwords": self._hints, "language": language, **more}
        segments, _ = self._model.transcribe(window.sound, **options)
        heard = _to_the_end(segments, len(window.sound) / RATE)
        return [piece for each in heard if (piece := _piece(each, window)).words]


def _to_the_end(segments: "Iterable[Segment]", length_s: float) -> "Iterator[Segment]":
    """The segments until one ends with the window, within the silence that was left there.

    Asked for more, the recogniser would go back and take that silence for another window.
    """
    for segment in segments:
        yield segment
        if segment.end >= length_s - TAIL_S:
            return


def _loaded(folder: Path, options: Listening) -> "WhisperModel":
    import ctranslate2
    from faster_whisper import WhisperModel

    cards = ctranslate2.get_cuda_device_count()
    device = ("cuda" if cards else "cpu") if options.device == "auto" else options.device
    if device == "cuda" and not cards:
        raise NoRecogniser(_NO_CARD)
    try:
        return WhisperModel(
            str(folder),
            device=device,
            compute_type="int8" if device == "cpu" else "default",
            cpu_threads=options.threads,
            local_files_only=True,
        )
    except MemoryError:
        raise
    except Exception as error:  # the tokenizer's faults have no class of their own
        raise NoRecogniser(_reason(error)) from None


_NO_CARD = "No usable graphics card was found; leave out --device cuda."
NO_MEMORY = "There is not enough memory for this model; choose a smaller one with --model."


def _reason(error: Exception) -> str:
    text = " ".join(str(error).split()).lower()
    if "cuda" in text or "cudnn" in text or "cublas" in text:
        return _NO_CARD
    if "memory" in text or "alloc" in text or "unavailable" in text:  # the last: for threads
        return NO_MEMORY
    return f"The recogniser's model cannot be used ({text[:120]}); place it anew."


def _no_language(language: str, known: list[str]) -> str:
    if len(known) == 1:
        return f"This model understands {known[0]} alone, not {language}; leave out --language."
    return f"No language has the code {language}; use one of two letters, such as en."


def _piece(segment: "Segment", window: Window) -> Piece:
    words = tuple(_words(segment.words or (), window))
    return Piece(
        start_s=words[0].start_s or 0.0 if words else 0.0,
        end_s=words[-1].end_s or 0.0 if words else 0.0,
        words=words,
        likelihood=round(segment.avg_logprob, 3),
        repetition=round(segment.compression_ratio, 3),
        silence=round(segment.no_speech_prob, 3),
    )


def _words(spoken: Iterable[Any], window: Window) -> Iterable[Word]:
    """Words with times in the recording; a part of a word belongs to the word before it."""
    held: Word | None = None
    for each in spoken:
        start, end = _place(window, each.start, each.end)
        word = Word(each.word.strip(), start, end, round(each.probability, 3))
        if held is not None and _goes_on(held.text, each.word):
            sure = min(held.confidence or 0, word.confidence or 0)
            held = Word(held.text + word.text, held.start_s, word.end_s, sure)
            continue
        if held is not None and held.text:
            yield held
        held = word
    if held is not None and held.text:
        yield held


def _goes_on(held: str, new: str) -> bool:
    """Whether a piece belongs to the word before it: "-ups", or "000" after "1,"."""
    at_joint = held[-1:], new[:1]
    return not new.startswith(" ") and not all(map(str.isalnum, at_joint))


def _place(window: Window, start: float, end: float) -> tuple[float, float]:
    """From when to when a word is said in the recording, by its seconds in the window's sound.

    A word lies in one stretch, that of its middle: nobody pauses within a word.
    """
    middle, before = (start + end) / 2 * RATE, 0
    for stretch in window.stretches:
        size = stretch.end - stretch.start
        if middle < before + size or stretch is window.stretches[-1]:
            break
        before += size
    inside = (min(max(second * RATE - before, 0), size) for second in (start, end))
    first, last = (round((stretch.start + sample) / RATE, 2) for sample in inside)
    return first, max(first, last)


def _failed(piece: Piece) -> bool:
    return piece.repetition > MOST_REPETITION or piece.likelihood < LEAST_LIKELIHOOD


def _doubt(pieces: list[Piece]) -> tuple[float, float]:
    """How bad a reading of a window is: failures first, then how unlikely; none is the worst."""
    if not pieces:
        return 1.0, math.inf
    return fmean(map(_failed, pieces)), -fmean(piece.likelihood for piece in pieces)


def _unbelievable(piece: Piece) -> str | None:
    if piece.silence > MOST_SILENCE and piece.likelihood < LEAST_LIKELIHOOD:
        return "no speech"
    return "repetition" if piece.repetition > MOST_REPETITION else None


def _nothing(window: Window) -> LeftOut:
    return LeftOut(
        start_s=round(window.start / RATE, 2),
        end_s=round(window.end / RATE, 2),
        text="",
        why="no speech",
    )


def _left_out(piece: Piece) -> LeftOut:
    why = _unbelievable(piece)
    return LeftOut(
        start_s=piece.start_s,
        end_s=piece.end_s,
        text=piece.text,
        why="no speech" if why == "no speech" else "repetition",
    )
