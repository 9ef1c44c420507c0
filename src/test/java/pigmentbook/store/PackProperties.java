package pigmentbook.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/** Packing and unpacking give back what was there. */
class PackProperties {

    private static final List<String> SPACES = List.of("", " ", "\n", "\r\n", "\t", "\n\n   ");

    /**
     * Whatever the files say beside what a record needs, and however they are laid out, they come back byte for byte.
     */
    @Property(tries = 25)
    void packingThenUnpackingIntoAnEmptyFolderGivesEveryByteBack(@ForAll long seed) throws Exception {
        Path temp = Files.createTempDirectory("pack");
        try {
            Path book = temp.resolve("book");
            fill(book, new Random(seed));
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            Pack.whole(book, null).write(out);
            Path zip = Files.write(temp.resolve("book.zip"), out.toByteArray());
            Path second = temp.resolve("second");
            Unpack.Found found = Unpack.save(second, zip, false);
            assertThat(found.setAside()).isEmpty();
            assertThat(Folders.of(second)).isEqualTo(Folders.of(book));
        } finally {
            delete(temp);
        }
    }

    private static void fill(Path book, Random random) {
        Folders.put(book, "book.json", record(random, "book", "\"format\": 1"));
        int records = random.nextInt(12);
        for (int i = 0; i < records; i++) {
            String id = "r" + i;
            Folders.put(book, "shelf/pigments/" + id + ".json", record(random, id, "\"kind\": \"paste\""));
            Folders.put(
                    book,
                    "shelf/lots/L-" + i + ".json",
                    record(random, "L-" + i, "\"of\": \"r0\", \"quantity\": \"1,5 kg\""));
            Folders.put(
                    book,
                    id + ".json",
                    record(random, id, "\"revisions\": [{ \"number\": 1, \"resin\": \"slow\", \"pigments\": [] }]"));
            Folders.put(book, "pours/2026/p" + i + ".json", record(random, "p" + i, "\"recipe\": \"r0\""));
            Folders.put(book, "put-away/molds/" + id + ".json", record(random, id, "\"x\": 1"));
            byte[] photo = new byte[random.nextInt(3) == 0 ? 1_200_000 : random.nextInt(5000)];
            random.nextBytes(photo);
            Folders.put(book, "photos/Front é " + i + ".jpg", photo);
        }
    }

    private static byte[] record(Random random, String id, String needed) {
        String space = SPACES.get(random.nextInt(SPACES.size()));
        String extra = new RandomJson(random.nextLong()).object(3).toString();
        String text = "{" + space + "\"id\":" + space + "\"" + id + "\"," + needed + space + ", \"extra\": " + extra
                + "}" + space;
        byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
        return random.nextBoolean() ? bytes : ("\ufeff" + text).getBytes(StandardCharsets.UTF_8);
    }

    private static void delete(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path each : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(each);
            }
        }
    }
}
