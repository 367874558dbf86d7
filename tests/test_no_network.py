"""The program opens no network connection: nothing on any floor imports what could."""

import ast
import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
NETWORK = {
    "socket", "ssl", "http", "urllib.request", "ftplib", "smtplib", "imaplib", "poplib", "socketserver",
    "xmlrpc", "requests", "httpx", "aiohttp", "webbrowser",
}  # fmt: skip


def test_nothing_imports_a_network_library() -> None:
    for path in [*(ROOT / "counter").rglob("*.py"), *(ROOT / "seed_demo").rglob("*.py")]:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names = []
            if isinstance(node, ast.Import):
                names = [alias.name for alias in node.names]
            elif isinstance(node, ast.ImportFrom) and node.module:
                names = [node.module, *(f"{node.module}.{alias.name}" for alias in node.names)]
            assert not [n for n in names if n in NETWORK or n.split(".")[0] in NETWORK], path


def test_a_whole_command_runs_with_every_socket_forbidden() -> None:
    code = """
import sys
def forbid(event, args):
    if event in ("socket.connect", "socket.bind", "socket.getaddrinfo", "socket.sendto"):
        raise SystemExit("a connection was tried: " + event)
sys.addaudithook(forbid)
from counter.cli.main import main
raise SystemExit(main(["ask", "--demo", "1d blk imp KC sm crown"]))
"""
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    assert "1d black" in done.stdout


def test_no_picture_of_the_docs_asks_a_host() -> None:
    for path in (ROOT / "docs" / "pictures").glob("*.svg"):
        asked = set(re.findall(r"url\(.?https?://|href=.https?://", path.read_text(encoding="utf-8")))
        assert not asked, f"{path}: {asked}"
