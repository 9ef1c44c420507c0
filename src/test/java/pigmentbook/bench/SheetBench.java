package pigmentbook.bench;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import pigmentbook.mix.Mix;
import pigmentbook.sheet.MixSheet;
import pigmentbook.sheet.SheetWriters;
import pigmentbook.sheet.Studio;

/**
 * How long sheets take. {@code ods}: 200 sheets against deflating the same bytes; {@code cold FORMAT}: the first sheet
 * of a fresh program, to be timed from outside too.
 */
public final class SheetBench {

    private static final int SHEETS = 200;
    private static final int WARM_UP = 6;
    private static final int ROUNDS = 7;

    private SheetBench() {}

    /** Runs the benchmark that is named. */
    public static void main(String[] args) throws IOException {
        if (args.length == 2 && args[0].equals("cold")) {
            cold(SheetWriters.Format.valueOf(args[1]));
        } else {
            ods();
        }
    }

    private static void cold(SheetWriters.Format format) {
        SheetWriters.prepare(format);
        Mix mix = Studio.mix(Studio.Order.total("940 g"));
        long start = System.nanoTime();
        int bytes = Studio.written(format, Studio.sheet(mix)).length;
        System.out.println(format + ", first: " + (System.nanoTime() - start) / 1_000_000 + " ms, " + bytes + " bytes");
    }

    private static void ods() throws IOException {
        Mix mix = Studio.mix(Studio.Order.volume("5 L").inLayers(3));
        List<Part> parts = parts(Studio.written(SheetWriters.Format.ODS, Studio.sheet(mix)));
        double[] ratios = new double[ROUNDS];
        for (int round = -WARM_UP; round < ROUNDS; round++) {
            long start = threadTime();
            for (int i = 0; i < SHEETS; i++) {
                MixSheet sheet = Studio.sheet(mix);
                Studio.written(SheetWriters.Format.ODS, sheet);
            }
            long written = threadTime() - start;
            start = threadTime();
            for (int i = 0; i < SHEETS; i++) {
                deflate(parts);
            }
            long deflated = threadTime() - start;
            if (round < 0) {
                continue;
            }
            ratios[round] = (double) written / deflated;
            System.out.println(SHEETS + " sheets " + written / 1_000_000 + " ms, deflating the same bytes "
                    + deflated / 1_000_000 + " ms, ratio " + Math.round(ratios[round] * 100) / 100.0);
        }
        Arrays.sort(ratios);
        System.out.println("median ratio " + Math.round(ratios[ROUNDS / 2] * 100) / 100.0);
    }

    /** The time of this thread alone, so that other work on the machine does not count. */
    private static long threadTime() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }

    private record Part(String name, byte[] bytes) {}

    private static List<Part> parts(byte[] zip) throws IOException {
        List<Part> parts = new ArrayList<>();
        try (ZipInputStream in = new ZipInputStream(new ByteArrayInputStream(zip))) {
            for (ZipEntry entry = in.getNextEntry(); entry != null; entry = in.getNextEntry()) {
                parts.add(new Part(entry.getName(), in.readAllBytes()));
            }
        }
        return parts;
    }

    private static void deflate(List<Part> parts) throws IOException {
        try (ZipOutputStream out = new ZipOutputStream(new ByteArrayOutputStream())) {
            for (Part part : parts) {
                out.putNextEntry(new ZipEntry(part.name()));
                out.write(part.bytes());
                out.closeEntry();
            }
        }
    }
}
