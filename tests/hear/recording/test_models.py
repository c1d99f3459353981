"""Models are found on disk first; the network is asked last and not for long."""

import http.server
import json
import shutil
import socket
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from time import monotonic

import pytest
import recordings
from recordings import MODEL

from cuewright.hear import hear
from cuewright.hear.recording import fetching, models, page
from cuewright.hear.recording.models import NoModel
from cuewright.hear.recording.recognise import NoRecogniser
from cuewright.hear.recording.sizes import sizes


def refusal(name: str) -> str:
    with pytest.raises(NoModel) as caught:
        models.folder(name)
    sentence = str(caught.value)
    assert sentence.endswith(".")
    assert sentence.count("\n") == 0
    return sentence


@pytest.fixture(autouse=True)
def no_network(monkeypatch: pytest.MonkeyPatch) -> None:
    """A port of this machine at which nobody listens, in place of the hub."""
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        monkeypatch.setenv("HF_ENDPOINT", f"http://127.0.0.1:{taken.getsockname()[1]}")


def test_a_folder_is_taken_by_its_name(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert models.folder(str(MODEL)) == MODEL
    shutil.copytree(MODEL, tmp_path / "mine")
    monkeypatch.chdir(tmp_path)
    assert models.folder("mine") == Path("mine")
    assert models.folder("./mine") == Path("mine")


@pytest.mark.parametrize("name", ["models/small", "./small", "/nowhere/small", "~/nowhere"])
def test_a_missing_folder_is_never_asked_of_the_hub(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(fetching, "fetch", lambda *_: pytest.fail("asked of the hub"))
    assert refusal(name).startswith("There is no model in ")


def test_our_own_folder_comes_before_the_hubs() -> None:
    shutil.copytree(MODEL, models.place() / "small")
    assert models.folder("small") == models.place() / "small"


def test_an_empty_folder_of_a_sizes_name_is_not_taken_for_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "small").mkdir()
    monkeypatch.chdir(tmp_path)
    shutil.copytree(MODEL, models.place() / "small")
    assert models.folder("small") == models.place() / "small"


@pytest.mark.parametrize("lost", ["model.bin", "config.json", "tokenizer.json", "vocabulary.json"])
def test_a_model_with_a_file_missing_says_which(lost: str, tmp_path: Path) -> None:
    shutil.copytree(MODEL, tmp_path / "mine")
    (tmp_path / "mine" / lost).unlink()
    assert lost in refusal(str(tmp_path / "mine"))


@pytest.mark.parametrize("harmed", ["model.bin", "config.json", "tokenizer.json"])
def test_a_damaged_model_is_said(harmed: str, tmp_path: Path) -> None:
    shutil.copytree(MODEL, tmp_path / "mine")
    path = tmp_path / "mine" / harmed
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])
    clip = recordings.write(tmp_path / "talk.wav", recordings.sound()[:80_000])
    own = recordings.UNKEPT.model_copy(update={"model": str(tmp_path / "mine")})
    with pytest.raises(NoRecogniser, match=r"^The recogniser's model cannot be used \(.*\.$"):
        hear(clip, own)


def test_a_size_that_does_not_exist_names_those_that_do() -> None:
    sentence = refusal("smal")
    assert all(name in sentence for name in sizes())


def test_without_a_network_it_says_where_to_put_it_by_hand() -> None:
    sentence = refusal("tiny")
    assert str(models.place() / "tiny") in sentence
    assert "Systran/faster-whisper-tiny" in sentence


def test_the_hubs_cache_is_used_without_a_network(tmp_path: Path) -> None:
    repo = tmp_path / "hub/hub/models--Systran--faster-whisper-tiny"
    shutil.copytree(MODEL, repo / "snapshots/abc")
    (repo / "refs").mkdir()
    (repo / "refs/main").write_text("abc")
    code = "import sys\nfrom cuewright.hear.recording import models\nprint(models.folder('tiny'))"
    done = subprocess.run(
        [sys.executable, "-c", code],
        env=recordings.environment(tmp_path),
        capture_output=True,
        text=True,
        check=True,
    )
    assert Path(done.stdout.strip()) == repo / "snapshots/abc"


def test_a_hub_that_never_answers_is_given_up(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fetching, "PATIENCE_S", 2.0)
    with socket.create_server(("127.0.0.1", 0)) as silent:
        monkeypatch.setenv("HF_ENDPOINT", f"http://127.0.0.1:{silent.getsockname()[1]}")
        since = monotonic()
        sentence = refusal("tiny")
    assert "nothing came for 2 seconds" in sentence
    assert monotonic() - since < 10
    assert not (models.place() / "tiny").exists()


class Hub(http.server.BaseHTTPRequestHandler):
    """As much of the hub as its client asks for, over the test recogniser."""

    def log_message(self, *_: object) -> None:
        """Nothing."""

    def do_HEAD(self) -> None:
        self.do_GET()

    def do_GET(self) -> None:
        if "/tree/" in self.path:
            rows = [
                {"type": "file", "path": path.name, "size": path.stat().st_size, "oid": path.name}
                for path in sorted(MODEL.iterdir())
            ]
            return self._answer(json.dumps(rows).encode())
        if self.path.startswith("/api/"):
            files = [{"rfilename": path.name} for path in sorted(MODEL.iterdir())]
            about = {"id": "x/y", "sha": "0" * 40, "siblings": files}
            return self._answer(json.dumps(about).encode())
        return self._answer((MODEL / self.path.rsplit("/", 1)[-1]).read_bytes())

    def _answer(self, content: bytes) -> None:
        self.send_response(200)
        self.send_header("Content-Length", str(len(content)))
        self.send_header("ETag", f'"{hash(content):x}"')
        self.send_header("X-Repo-Commit", "0" * 40)
        self.end_headers()
        if self.command == "GET":
            self.wfile.write(content)


@contextmanager
def hub() -> Iterator[str]:
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Hub)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_address[1]}"
    finally:
        server.shutdown()
        server.server_close()


def test_a_model_is_fetched_once_and_whole(monkeypatch: pytest.MonkeyPatch) -> None:
    told: list[str] = []
    with hub() as address:
        monkeypatch.setenv("HF_ENDPOINT", address)
        found = models.folder("tiny", told.append)
    assert found == models.place() / "tiny"
    assert sorted(p.name for p in found.iterdir()) == sorted(p.name for p in MODEL.iterdir())
    assert (found / "model.bin").read_bytes() == (MODEL / "model.bin").read_bytes()
    assert told == ["Fetching the model tiny, about 78 MB, this once."]
    assert [path.name for path in models.place().iterdir()] == ["tiny"]
    assert models.folder("tiny") == found


def test_another_model_is_another_identity(tmp_path: Path) -> None:
    shutil.copytree(MODEL, tmp_path / "mine")
    assert models.identity(tmp_path / "mine") == models.identity(MODEL)
    path = tmp_path / "mine/config.json"
    path.write_text(path.read_text() + " ")
    assert models.identity(tmp_path / "mine") != models.identity(MODEL)


def test_the_page_tells_every_size_where_it_is_and_what_it_costs() -> None:
    shutil.copytree(MODEL, models.place() / "base")
    text = page.listing()
    rows = {line.split()[0]: line for line in text.split("\n\n")[0].splitlines()[1:]}
    assert list(rows) == list(sizes())
    assert rows["base"].endswith("yes")
    assert rows["small"].endswith("no, the default")
    assert max(map(len, text.replace(str(models.place()), "").splitlines())) <= 80
    assert "published" in text


def test_every_figure_has_its_source() -> None:
    for size in sizes().values():
        assert size.source.startswith(("published, ", "measured, "))
        assert size.processor is None or size.processor.source.startswith("published, ")
