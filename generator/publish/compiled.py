"""Templates as they were compiled, kept for as long as the process runs: the files in one piece are printed by templates that pages were
printed by before, with other words in reach; another site is printed by the same theme."""
import jinja2

_COMPILED: dict[str, bytes] = {}


class Kept(jinja2.BytecodeCache):
    """Keeps compiled templates between environments. The key holds the source's hash, so a changed template is compiled anew."""

    def load_bytecode(self, bucket: jinja2.bccache.Bucket) -> None:
        if data := _COMPILED.get(bucket.key + bucket.checksum):
            bucket.bytecode_from_string(data)

    def dump_bytecode(self, bucket: jinja2.bccache.Bucket) -> None:
        _COMPILED[bucket.key + bucket.checksum] = bucket.bytecode_to_string()
