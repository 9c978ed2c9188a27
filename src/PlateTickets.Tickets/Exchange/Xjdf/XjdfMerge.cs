using System.Xml.Linq;
using static PlateTickets.Tickets.Exchange.Xjdf.XjdfNames;

namespace PlateTickets.Tickets.Exchange.Xjdf;

/// <summary>How a document that is sent again stands to the earlier one (XJDF 2.2, 9.8.2).</summary>
public enum UpdateMethod
{
    Complete = 1,
    Incremental = 2,
    Remove = 3,
}

/// <summary>Applies a document that was sent in part to the whole that is here (XJDF 2.2, 9.8.2).</summary>
public static class XjdfMerge
{
    /// <param name="whole">As it is here; it is changed.</param>
    /// <param name="part">What was sent.</param>
    /// <param name="method">Incremental or Remove.</param>
    /// <exception cref="DocumentRefusedException">It is about another job.</exception>
    public static void Apply(XDocument whole, XDocument part, UpdateMethod method)
    {
        var (root, change) = (whole.Root!, part.Root!);
        foreach (var name in new[] { "JobID", "JobPartID" })
        {
            var (here, there) = (root.Attribute(name)?.Value ?? "", change.Attribute(name)?.Value ?? "");
            if (here != there)
            {
                throw new DocumentRefusedException(ReturnCodes.NotImplemented, $"XJDF/@{name} is “{there}”, and the queue entry's is “{here}”. A change in part names the same job and job part; another part of the job is a job of its own here.");
            }
        }

        if (method == UpdateMethod.Incremental)
        {
            Attributes(root, change);
        }

        foreach (var set in change.Elements(Ns + "ResourceSet"))
        {
            var target = root.Elements(Ns + "ResourceSet").FirstOrDefault(s => Same(s, set, "Name") && Same(s, set, "Usage") && Same(s, set, "ProcessUsage"));
            if (method == UpdateMethod.Remove)
            {
                Remove(target, set);
            }
            else if (target is null)
            {
                root.Add(new XElement(set));
            }
            else
            {
                Update(target, set);
            }
        }
    }

    private static void Remove(XElement? target, XElement set)
    {
        var resources = set.Elements(Ns + "Resource").ToList();
        if (target is null)
        {
            return;
        }

        if (resources.Count == 0)
        {
            target.Remove();
            return;
        }

        foreach (var found in resources.Select(r => Find(target, r)).OfType<XElement>().ToList())
        {
            found.Remove();
        }
    }

    private static void Update(XElement target, XElement set)
    {
        Attributes(target, set);
        foreach (var resource in set.Elements(Ns + "Resource"))
        {
            if (Find(target, resource) is { } found)
            {
                Elements(found, resource);
            }
            else
            {
                target.Add(new XElement(resource));
            }
        }
    }

    // Elements of one name are told apart by their partition where they have one, otherwise by their place.
    private static void Elements(XElement target, XElement change)
    {
        Attributes(target, change);
        foreach (var group in change.Elements().Where(e => e.Name != Ns + "Part").GroupBy(e => e.Name))
        {
            var there = target.Elements(group.Key).ToList();
            foreach (var (index, child) in group.Index())
            {
                var found = child.Elements(Ns + "Part").Any() ? there.Find(t => Parts(t).SetEquals(Parts(child))) : there.ElementAtOrDefault(index);
                if (found is null)
                {
                    target.Add(new XElement(child));
                }
                else
                {
                    Elements(found, child);
                    if (!child.HasElements && child.Value.Length > 0)
                    {
                        found.Value = child.Value;
                    }
                }
            }
        }
    }

    // IDs are of one document only (9.8.2.1): those of the part must not replace the whole's, to which its references point.
    private static void Attributes(XElement target, XElement change)
    {
        foreach (var attribute in change.Attributes().Where(a => !a.IsNamespaceDeclaration && a.Name.LocalName is not ("ID" or "MediaRef")))
        {
            target.SetAttributeValue(attribute.Name, attribute.Value);
        }
    }

    private static XElement? Find(XElement set, XElement resource)
    {
        var wanted = Parts(resource);
        return set.Elements(Ns + "Resource").FirstOrDefault(r => Parts(r).SetEquals(wanted));
    }

    private static HashSet<string> Parts(XElement element) =>
        [.. element.Elements(Ns + "Part").Select(p => string.Join('\n', p.Attributes().Where(a => !a.IsNamespaceDeclaration).Select(a => $"{a.Name}={a.Value}").Order(StringComparer.Ordinal)))];

    private static bool Same(XElement a, XElement b, string attribute) => a.Attribute(attribute)?.Value == b.Attribute(attribute)?.Value;
}
