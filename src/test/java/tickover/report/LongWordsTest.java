package tickover.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class LongWordsTest {
    @Test
    void ordinaryWordsStayAsTheyAre() {
        String text = "The alternator, at 0.0183 m/s²; 5d3c0f8e-6a1b-4c52-9f0e-0a7e5b1c0702.";
        assertEquals(text, LongWords.broken(text, LongWords.MOST_LETTERS));
    }

    @Test
    void longWordsMayBreakEverySoManyLetters() {
        assertEquals("abc\u200Bdef\u200Bg h", LongWords.broken("abcdefg h", 3));
        assertEquals("abc-def", LongWords.broken("abc-def", 4));
    }

    @Test
    void marksStayWithTheirLetterAndPairsTogether() {
        assertEquals("ae\u0301\u200Bb", LongWords.broken("ae\u0301b", 2));
        assertEquals(
                "\uD83D\uDE8C\u200B\uD83D\uDE8C", LongWords.broken("\uD83D\uDE8C\uD83D\uDE8C", 1));
    }
}
