"""The shell's commands; none of them imports Textual or Rich."""
