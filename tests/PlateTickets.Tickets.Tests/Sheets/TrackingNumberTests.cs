using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Tests.Sheets;

public class TrackingNumberTests
{
    // ISBT 128 technical specification: the donation number G1234 98 654321 has the check character H.
    [Theory]
    [InlineData("G123498654321", 'H')]
    // Computed independently for the numbering of this project.
    [InlineData("P7K3M9Q4", '6')]
    public void Mod37Radix2_PublishedExample_GivesItsCheckCharacter(string text, char check) =>
        Assert.Equal(check, Iso7064.Mod37Radix2(text));

    [Fact]
    public void Mod37Radix2_RuleOfTheStandard_WeightedSumIsOneModulo37()
    {
        // ISO/IEC 7064: the sum of value x 2^(position from the right) over the whole string, check included, is 1 mod 37.
        const string values = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*";
        foreach (var number in Numbers(500))
        {
            var sum = 0;
            var weight = 1;
            foreach (var c in number.Reverse())
            {
                sum = (sum + (values.IndexOf(c, StringComparison.Ordinal) * weight)) % 37;
                weight = weight * 2 % 37;
            }

            Assert.Equal(1, sum);
        }
    }

    [Fact]
    public void FromSequence_TenThousandPlaces_AreDifferentSafeAndReadBack()
    {
        var seen = new HashSet<string>();
        foreach (var number in Numbers(10_000))
        {
            Assert.True(seen.Add(number));
            Assert.Equal(TrackingNumber.Length, number.Length);
            Assert.DoesNotContain(number, c => "ILOUYZ*".Contains(c, StringComparison.Ordinal));
            Assert.Equal(number, TrackingNumber.Read(number).Number);
        }
    }

    [Fact]
    public void FromSequence_SkipsOnlyPlacesWithAnUnsafeCheckCharacter()
    {
        // 7 of the 37 check characters are never printed (I L O U Y Z *).
        var skipped = Enumerable.Range(0, 10_000).Count(n => TrackingNumber.FromSequence(NumberKind.Sheet, n) is null);
        Assert.InRange(skipped, 1_700, 2_100);
    }

    [Fact]
    public void Read_EverySingleSubstitution_IsAMisread()
    {
        foreach (var number in Numbers(30))
        {
            for (var i = 1; i < number.Length; i++)
            {
                foreach (var other in TrackingNumber.Alphabet.Where(c => c != number[i]))
                {
                    var wrong = number[..i] + other + number[(i + 1)..];
                    Assert.Equal(NumberFault.Misread, TrackingNumber.Read(wrong).Fault);
                }
            }
        }
    }

    [Fact]
    public void Read_EverySwapAndJumpSwap_IsAMisread()
    {
        foreach (var number in Numbers(300))
        {
            foreach (var distance in new[] { 1, 2 })
            {
                for (var i = 1; i + distance < number.Length; i++)
                {
                    if (number[i] == number[i + distance])
                    {
                        continue;
                    }

                    var swapped = number.ToCharArray();
                    (swapped[i], swapped[i + distance]) = (swapped[i + distance], swapped[i]);
                    Assert.Equal(NumberFault.Misread, TrackingNumber.Read(new string(swapped)).Fault);
                }
            }
        }
    }

    [Theory]
    [InlineData("]C0{0}")]
    [InlineData("]Q1{0}")]
    [InlineData("  {0}\r\n")]
    [InlineData("{1}")]
    [InlineData("{2}")]
    public void Read_WhatScannersAndPeopleAdd_IsForgiven(string form)
    {
        var number = Numbers(1)[0];
        var typed = string.Format(System.Globalization.CultureInfo.InvariantCulture, form, number, number.ToLowerInvariant(), TrackingNumber.ForPeople(number));
        Assert.Equal(number, TrackingNumber.Read(typed).Number);
    }

    [Theory]
    [InlineData(null, NumberFault.Empty)]
    [InlineData(" \t", NumberFault.Empty)]
    [InlineData("S123", NumberFault.NotANumber)]
    [InlineData("SLLLLLLLL", NumberFault.NotANumber)]
    [InlineData("4006381333931", NumberFault.NotANumber)]
    public void Read_OtherTexts_SayWhatTheyAre(string? text, NumberFault fault) =>
        Assert.Equal(fault, TrackingNumber.Read(text).Fault);

    private static List<string> Numbers(int count) =>
        [.. Enumerable.Range(0, count * 2).Select(n => TrackingNumber.FromSequence(NumberKind.Sheet, n)).OfType<string>().Take(count)];
}
